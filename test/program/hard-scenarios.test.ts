import { describe, expect, it } from "vitest";
import { emptyFolder } from "./cli.ts";
import { Coverage, runInOneProcess } from "./messages/one-process.ts";

/** Valid, and far from what the demos are: each must be answered with numbers, or with words. */
const lines = [
  "check station-dial --set drive.carrier_hz=1.01",
  "check station-dial --set drive.carrier_hz=1.01 --json",
  "run station-dial --readings 20 --quiet --set drive.carrier_hz=1.01",
  "check station-dial --set receiver.noise_v=0 --set drive.amplitude_noise=0",
  "budget station-dial --no-simulation --set receiver.noise_v=3",
  "check observatory --set receiver.leak=false --set receiver.noise_v=0.001",
  "check observatory --set synthesizer.loop.damping=100",
  "check observatory --set synthesizer.loop.damping=0.001",
  "check observatory --set synthesizer.loop.natural_hz=1e-6",
  "run observatory --readings 3 --quiet --set synthesizer.loop.natural_hz=1e-6",
  "run observatory --readings 3 --quiet --set drive.drop_probability=0.9",
  "run observatory --readings 3 --quiet --set receiver.extra_step_rate_hz=2",
  "run reference-direct --length 2000 --gate 100 --quiet --set counter.holdoff_s=10",
  "run reference-direct --readings 3 --quiet --set counter.missed_edge_probability=0.999",
  "run school-laboratory --readings 3 --quiet --set counter.resolution_s=0.9",
  "run school-laboratory --readings 3 --quiet --set reference.fractional_offset=-0.9",
  "run school-laboratory --set length_s=1e9 --gate 1e8 --quiet",
  "plan school-laboratory --within 1e-6 --set reference.noise.white_pm_rms_s=0",
  "plan observatory --length 1 --set counter.gate_s=single",
];

const results = runInOneProcess(
  lines.map((line) => ({ cwd: emptyFolder(), args: line.split(" ") })),
  new Coverage(),
);

describe("hard but valid scenarios", () => {
  it.each(lines.map((line, i) => [line, i] as const))("%s", (_, i) => {
    const { status, stdout, stderr } = results[i]!;
    expect([status, stderr.replace(/^(?:warning: | {2}).*\n/gm, "")]).toEqual([0, ""]);
    expect(stdout).not.toMatch(/NaN|Infinity|undefined/);
    expect(stdout).not.toBe("");
  });
});
