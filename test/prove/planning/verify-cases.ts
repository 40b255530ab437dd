import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Method } from "../../../src/planning/index.ts";
import type { Scenario } from "../../../src/scenario/index.ts";
import { parseScenario } from "../../../src/scenario/index.ts";

/** A scenario whose predictions are held to simulated runs. */
export interface VerifyCase {
  readonly name: string;
  readonly scenario: Scenario;
  /** Readings of a run by way of measuring, for some or all of them. */
  readonly readings: Partial<Record<Method, number>>;
}

/** Readings that take little to simulate, and where the first of a run still counts. */
const few: VerifyCase["readings"] = {
  single_periods: 12,
  gates_with_dead_time: 6,
  back_to_back_mean: 5,
  back_to_back_line: 6,
  stamped_ticks_line: 24,
  synthesizer_output: 8,
  reference_direct: 8,
  longest_gate: 3,
};

const demoFolder = join(import.meta.dirname, "../../../scenarios");

/** Names of the demo scenarios. */
export const demoNames = [
  "observatory",
  "harbour-tide-gauge",
  "station-dial",
  "school-laboratory",
  "synthesizer-direct",
  "observatory-own-oscillator",
  "reference-direct",
] as const;

/** A demo scenario, changed by overrides. */
export function demo(name: string, sets: readonly string[] = []): Scenario {
  const file = join(demoFolder, `${name}.yaml`);
  return parseScenario(readFileSync(file, "utf8"), file, sets).scenario;
}

/** Every demo, by every way of measuring, with a longer gate where its counter has none longer. */
export const demoCases: readonly VerifyCase[] = demoNames.map((name) => ({
  name,
  scenario: demo(name, name === "school-laboratory" ? [] : ["counter.gate_max_s=400"]),
  // A gate as long as the period holds one cycle or two by chance, which theory averages: of six readings the
  // rms comes out a tenth too small, of twelve a twentieth.
  readings: name === "school-laboratory" ? { ...few, gates_with_dead_time: 12 } : few,
}));

const plain = `
length_s: 4000
clock: { tick_hz: 1 }
reference: { nominal_hz: 1000 }
counter: { input: clock, gate_s: 9.5, timebase: {} }
`;

const loop = `
length_s: 4000
clock: { tick_hz: 1 }
reference: { nominal_hz: 1e6 }
synthesizer: { output_hz: 1, setting_step_hz: 0, loop: { natural_hz: 0.05, damping: 0.7 } }
counter: { input: synthesizer, gate_s: 9.5, timebase: {} }
`;

const byClock: VerifyCase["readings"] = {
  single_periods: 40,
  gates_with_dead_time: 20,
  back_to_back_mean: 10,
  back_to_back_line: 30,
  stamped_ticks_line: 60,
};

const oneNoise = (
  text: string,
  set: string,
  readings: VerifyCase["readings"],
  ...more: string[]
): VerifyCase => ({
  name: set,
  scenario: parseScenario(text, "plain.yaml", [set, ...more]).scenario,
  readings,
});

/** Each noise type alone: of the edges, of the time base, of a loop's own oscillator, of the counter's inputs. */
export const noiseCases: readonly VerifyCase[] = [
  oneNoise(plain, "reference.noise.white_pm_rms_s=1e-4", byClock),
  oneNoise(plain, "reference.noise.flicker_pm_adev_1s=1e-4", byClock),
  oneNoise(plain, "counter.timebase.noise.white_pm_rms_s=1e-4", byClock),
  oneNoise(plain, "counter.timebase.noise.flicker_pm_adev_1s=1e-4", byClock),
  oneNoise(plain, "counter.timebase.noise.white_fm_adev_1s=1e-6", byClock),
  oneNoise(plain, "counter.timebase.noise.flicker_fm_adev=1e-6", byClock),
  oneNoise(plain, "counter.timebase.noise.random_walk_fm_adev_1s=1e-6", byClock),
  oneNoise(plain, "counter.trigger_noise_s=1e-4", byClock),
  {
    name: "counter.technique=direct, trigger_noise_s=5e-6",
    scenario: demo("reference-direct", ["counter.technique=direct"]),
    readings: { reference_direct: 12 },
  },
  // Counts of a clock that is in step with the time base would all be cut alike: a little noise (half a count,
  // enough for cuts to be uniform and independent: Widrow & Kollár, Quantization Noise) makes them differ.
  oneNoise(plain, "counter.resolution_s=1e-3", byClock, "counter.trigger_noise_s=5e-4"),
  oneNoise(loop, "reference.noise.white_pm_rms_s=1e-6", { synthesizer_output: 20 }),
  oneNoise(loop, "reference.noise.flicker_pm_adev_1s=1e-6", { synthesizer_output: 20 }),
  oneNoise(loop, "reference.noise.white_fm_adev_1s=1e-6", { synthesizer_output: 20 }),
  oneNoise(loop, "reference.noise.flicker_fm_adev=1e-6", { synthesizer_output: 20 }),
  oneNoise(loop, "reference.noise.random_walk_fm_adev_1s=1e-7", { synthesizer_output: 20 }),
  oneNoise(loop, "synthesizer.noise.white_pm_rms_s=1e-6", { synthesizer_output: 20 }),
  oneNoise(loop, "synthesizer.noise.flicker_pm_adev_1s=1e-6", { synthesizer_output: 20 }),
  oneNoise(loop, "synthesizer.noise.white_fm_adev_1s=1e-6", { synthesizer_output: 20 }),
  oneNoise(loop, "synthesizer.noise.flicker_fm_adev=1e-6", { synthesizer_output: 20 }),
  oneNoise(loop, "synthesizer.noise.random_walk_fm_adev_1s=1e-7", { synthesizer_output: 20 }),
  oneNoise(loop, "synthesizer.phase_detector_white_s_per_sqrt_hz=1e-6", { synthesizer_output: 20 }),
  oneNoise(loop, "synthesizer.spurs=[{frequency_hz: 0.013, time_amplitude_s: 1e-5}]", {
    synthesizer_output: 20,
  }),
];
