import { describe, expect, it } from "vitest";
import { tickwright } from "../cli/cli.ts";

/** Command lines that fail, the documented status, and what must be said: what, where, what to do. */
const failures: readonly (readonly [string, number, RegExp])[] = [
  ["rum observatory", 2, /unknown command 'rum'[\s\S]*Did you mean run\?/],
  ["run observatry", 2, /did you mean observatory\?/],
  ["run observatory --sed 4", 2, /unknown option '--sed'[\s\S]*Did you mean [\s\S]*--seed/],
  ["run", 2, /missing required argument 'scenario'/],
  ["run observatory --readings 0", 2, /--readings.*must be a whole number of at least 1/],
  ["completion tcsh", 2, /Allowed choices are bash, zsh, fish/],
  ["check observatory --set drive.burts_s=1", 2, /unknown key; did you mean burst_s\?/],
  ["check observatory --set drive.carrier_lock=lokced", 2, /did you mean locked\?/],
  [
    "check observatory --set drive.carrier_hz=1e-3",
    2,
    /drive.carrier_hz: .*100 time constants.*; raise it/,
  ],
  [
    "check observatory --set drive.carrier_hz=1e12",
    2,
    /drive.carrier_hz: .*cycles into a burst.*; lower it/,
  ],
  [
    "check observatory --set receiver.time_constant_s=1e6",
    2,
    /receiver.time_constant_s: .*; shorten it/,
  ],
  ["check observatory --set counter.gate_s=0.001", 2, /counter.gate_s: is shorter than/],
  ["check observatory --set length_s=1e300", 2, /length_s: must be at most/],
  [
    "check observatory --set counter.trigger_noise_s=60",
    2,
    /counter.trigger_noise_s: is as long as/,
  ],
  [
    "check observatory --set reference.noise.random_walk_fm_adev_1s=9",
    2,
    /reference.noise: is so large/,
  ],
  ["plan observatory", 2, /give either --within or --length/],
  ["judge ./none.csv", 3, /none.csv: could not read: there is no such file/],
];

describe("messages of failures", () => {
  it.each(failures)("%s", (line, status, said) => {
    const found = tickwright(line.split(" "));
    expect(found).toMatchObject({ status, stdout: "" });
    expect(found.stderr).toMatch(said);
    expect(found.stderr).not.toMatch(/\n\s+at |RangeError|this is a bug/);
  });

  it.each(failures)("%s --json", (line, status, said) => {
    const found = tickwright([...line.split(" "), "--json"]);
    expect([found.status, found.stdout]).toEqual([status, ""]);
    const { error } = JSON.parse(found.stderr);
    expect(error.status).toBe(status);
    // A command that takes no --json may complain of that instead.
    if (!line.startsWith("completion")) expect(error.messages.join("\n")).toMatch(said);
  });

  it("tells versions as JSON", () => {
    const { status, stdout } = tickwright(["--version", "--json"]);
    expect(status).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({
      node: process.versions.node,
      v8: process.versions.v8,
    });
  });

  it("cautions where the amplitude is above extra-low voltage", () => {
    const { stdout } = tickwright(["check", "observatory", "--set", "drive.amplitude_v=325"]);
    expect(stdout.replace(/\s+/g, " ")).toMatch(/dangerous to touch.*local electrical code/);
  });
});
