import { sample } from "../../scenario/sample.ts";
import type { Sample } from "./sample.ts";

/** The whole chain with overrides, and the warning that `check` gives: its code, then what it says. */
const set = (sets: string | readonly string[], says: RegExp): Sample => ({
  args: ["check", "s.yaml", ...[sets].flat().flatMap((one) => ["--set", one])],
  files: { "s.yaml": sample },
  status: 0,
  says,
});

/** A clock with an oscillator that nothing is said of, and a counter without fault. */
const quiet = `length_s: 100
clock: { tick_hz: 1 }
reference: { nominal_hz: 1000, noise: { random_walk_fm_adev_1s: 1e-12 } }
counter: { gate_s: 1.5, dead_time_s: 0.5 }
`;

/** Readings, and the caution that `judge` gives. */
const judged = (readings: readonly number[], says: RegExp): Sample => ({
  args: "judge r.csv --nominal-period 1 --gate 1 --back-to-back",
  files: { "r.csv": `period_s\n${readings.join("\n")}\n` },
  status: 0,
  says,
});

/** A scatter without pattern: the fractional parts of multiples of an irrational number. */
const scattered = (i: number) => 1 + 1e-6 * ((i * Math.SQRT2) % 1);

/** Each warning by its code. */
export const warningSamples: readonly Sample[] = [
  set(
    ["counter.gate_s=50", "counter.dead_time_s=0.5"],
    /^gate_race counter\.gate_s races with the edges: the gate of whole periods catches late edges .* one of 49\.5 s does not$/,
  ),
  set("reference.noise={}", /^no_noise reference\.noise is not told, so that theory takes/),
  {
    args: "check quiet.yaml",
    files: { "quiet.yaml": quiet },
    status: 0,
    says: /^no_scatter counter shows readings that nothing scatters/,
  },
  set(
    "reference.like=ocxo",
    /^typical_values reference\.uncertainty is typical of a class, not known of yours \(so are/,
  ),
  set(
    "reference.noise={ phase_noise: { carrier_hz: 10e6, dbc_hz: { 1: -80, 10: -100 } } }",
    /^phase_noise_extrapolated reference\.noise\.phase_noise begins at 1 Hz: for averages over/,
  ),
  set(
    "reference.noise={ phase_noise: { carrier_hz: 10e6, dbc_hz: { 1: -60, 10: -150, 99: -150 } } }",
    /^phase_noise_missed reference\.noise\.phase_noise\.dbc_hz\.1 is missed by/,
  ),
  set(
    "counter.gate_s=15000",
    /^few_readings counter\.gate_s leaves room for one reading in the run/,
  ),
  set(
    ["counter.technique=time_interval", "counter.dead_time_s=1"],
    /^no_effect counter\.dead_time_s has no effect on a time-interval counter/,
  ),
  set(
    "counter.input=synthesizer",
    /^no_effect disturbances\.0 does not show: the counter looks at/,
  ),
  set("counter.holdoff_s=2", /^holdoff_hides_edges counter\.holdoff_s is not shorter than the 1 s/),
  set(
    "counter.holdoff_s=0",
    /^bounce_counted counter\.holdoff_s is shorter than the 0\.001 s in which/,
  ),
  set(
    ["counter.input=reference", "counter.timebase=reference"],
    /^timebase_is_input counter\.timebase is what the counter measures: readings show only/,
  ),
  set(
    "disturbances.2={kind: drive_rate, at_s: 300, for_s: 9, output_hz: 0.6}",
    /^fallback_takes_over disturbances\.2\.output_hz leaves 1\.67 s from burst to burst, more than/,
  ),
  set(
    "disturbances.1.at_s=50",
    /^disturbance_order disturbances\.1\.at_s is earlier than the one before/,
  ),
  set(
    "disturbances.1.at_s=30000",
    /^disturbance_beyond_end disturbances\.1\.at_s is not within the run/,
  ),
  set(
    "receiver.threshold_v=7.7",
    /^threshold_marginal receiver\.threshold_v only noise lifts a burst/,
  ),
  set(
    ["receiver.time_constant_s=1", "receiver.threshold_v=0.5"],
    /^bursts_blocked receiver\.time_constant_s is so long that .* that burst makes no step/,
  ),
  set(
    "drive.carrier_hz=40",
    /^few_carrier_cycles drive\.carrier_hz gives only 2\.4 cycles a burst, so/,
  ),
  set(
    "drive.amplitude_v=325",
    /^voltage_caution drive\.amplitude_v .* follow your local electrical code/,
  ),
  set("reference.aging_per_day=0.1", /^large_rate reference\.aging_per_day adds up to .*; it is a/),
  set(
    "synthesizer.output_hz=5.01",
    /^setting_mismatch synthesizer\.output_hz is not 5 × tick_hz = 5 Hz/,
  ),
  set(
    "synthesizer.loop.comparison_hz=5",
    /^slow_comparison synthesizer\.loop\.comparison_hz is below 20/,
  ),
  set(
    "receiver.threshold_v=7.4",
    /^bursts_missed receiver\.threshold_v is so high that .* % of the bursts/,
  ),
  set(
    "receiver.threshold_v=7.4",
    /^burst_by_burst receiver may miss a burst, .* goes burst by burst/,
  ),
  set(
    "receiver.extra_step_rate_hz=1e-4",
    /^extra_steps receiver\.extra_step_rate_hz gives about 8\.6 extra/,
  ),
  {
    args: "run s.yaml --length 500 --gate 5",
    files: { "s.yaml": sample.replace("for_s: 10", "for_s: 350") },
    status: 0,
    says: /^hardly_driven drive the clock ran on its own oscillator for \d+ % of the run/,
  },
  {
    args: "run s.yaml --recording lazy --bursts --readings 3",
    files: { "s.yaml": sample },
    status: 0,
    says: /^recording_forced recording is bursts because of the bursts asked for: the draws differ/,
  },
  {
    args: "run s.yaml --plot --readings 1",
    files: { "s.yaml": sample },
    status: 0,
    says: /^no_picture --plot the run is too short for a picture/,
  },
  judged(Array(9).fill(1.000001), /^frozen all 9 readings are the same to the last digit/),
  judged(
    [...Array(30).keys()].map((i) => 1 + 1e-6 * (i % 3)),
    /^coarse the readings move in steps coarser than their noise/,
  ),
  judged(
    [...Array(60).keys()].map((i) => (i > 20 && i < 35 ? 1.0000005 : scattered(i))),
    /^repeated 14 readings in a row are the same to the last digit/,
  ),
];
