import { expect } from "vitest";
import {
  type Bench,
  defaultSettings,
  lessonSteps,
  paceOf,
  type Settings,
  type Task,
  tasks,
} from "../../../src/lab/index.ts";
import { RandomStream } from "../../../src/numeric/index.ts";
import { parseScenario, type Scenario } from "../../../src/scenario/index.ts";

/** Every demo. */
export const demos = [
  "observatory",
  "harbour-tide-gauge",
  "observatory-own-oscillator",
  "reference-direct",
  "school-laboratory",
  "station-dial",
  "synthesizer-direct",
];

const pace = paceOf(
  () => false,
  () => {},
);

/** What a step shows. */
export async function shownOf(
  bench: Bench,
  id: string,
  seed = "steps-1",
  change: Partial<Settings> = {},
) {
  const step = lessonSteps({ scenario: bench.lesson, title: "" }).find((one) => one.id === id)!;
  const settings = { ...defaultSettings(seed), ...change };
  const task = tasks[step.task] as Task<typeof step.task>;
  const answer = await task(bench, step.ask(settings), pace);
  return { step, answer, shown: step.show(answer, settings) };
}

/** Scenarios that nobody wrote: each value drawn over the range that people use, those that make sense kept. */
export function randomScenarios(count: number): readonly Scenario[] {
  const found: Scenario[] = [];
  for (let number = 0; found.length < count; number++) {
    try {
      found.push(
        parseScenario(randomText(new RandomStream(`lesson ${number}`, "test")), "random").scenario,
      );
    } catch {}
  }
  return found;
}

function randomText(stream: RandomStream): string {
  const between = (from: number, to: number) =>
    (from * (to / from) ** stream.uniform()).toPrecision(4);
  const chance = (p: number) => stream.uniform() < p;
  const steps = 1 + Math.floor(5 * stream.uniform());
  const tick = Number(between(0.5, 4));
  const lines = [
    `clock: { tick_hz: ${tick} }`,
    `environment: { mean_c: ${between(5, 30)}, daily_amplitude_k: ${between(0.5, 10)} }`,
    `reference: { nominal_hz: 1e7, fractional_offset: ${between(1e-11, 1e-4)}, temperature: { linear_per_k: ${between(1e-11, 1e-6)}, turnover_c: 20 }, noise: { white_fm_adev_1s: ${between(1e-12, 1e-6)}, flicker_fm_adev: ${between(1e-13, 1e-8)} } }`,
    `counter: { input: clock, gate_s: ${between(1, 100)}, dead_time_s: ${chance(0.5) ? 0 : between(0.01, 5)}, resolution_s: ${between(1e-9, 1e-4)}, trigger_noise_s: ${between(1e-8, 1e-4)}${chance(0.3) ? ", timebase: reference" : `, timebase: { fractional_offset: 1e-9, uncertainty: ${between(1e-10, 1e-6)} }`} }`,
    `length_s: ${between(600, 1e6)}`,
  ];
  if (chance(0.7)) {
    lines.push(
      `synthesizer: { output_hz: ${tick * steps}, loop: { natural_hz: ${between(0.2, 3)}, damping: ${between(0.5, 1.5)} }, noise: { white_fm_adev_1s: ${between(1e-7, 1e-5)} } }`,
      `drive: { carrier_hz: ${between(400, 3000)}, carrier_lock: ${chance(0.5) ? "free" : "locked"}, burst_s: ${between(0.04, 0.08)}, amplitude_v: ${between(8, 15)}, amplitude_noise: ${between(0.001, 0.05)} }`,
      `receiver: { rectifier: full, time_constant_s: ${between(0.005, 0.02)}, threshold_v: ${between(2, 4)}, noise_v: ${between(0.01, 0.2)}, steps_per_tick: ${steps}${chance(0.5) ? ", fallback: { after_s: 2, fractional_offset: 1e-5 }" : ""} }`,
    );
  }
  return lines.join("\n");
}

/** Answers that a step takes for right, of all that can be given. */
export async function rightOf(bench: Bench, id: string, seed: string) {
  const { step, shown } = await shownOf(bench, id, seed);
  const { question } = step;
  const said =
    question.kind === "choice"
      ? question.choices.map((_, i) => `${i}`)
      : question.kind === "amount"
        ? question.values.map(String)
        : [0, 0.25, 0.5, 0.75, 1, 1.5].map((power) =>
            question.places.map((n) => (n ** -power).toPrecision(2)).join("-"),
          );
  return said.filter((one) => shown.grade!(one).isRight);
}

/**
 * Holds the right answers of all steps of a lesson to be there, and the same for every seed. The intervals of a
 * hundred runs have theirs by what 95 % means.
 *
 * @param bench - what it is about
 * @param seeds - beside a first one
 */
export async function holdAnswers(bench: Bench, seeds: readonly string[]): Promise<void> {
  for (const { id } of lessonSteps({ scenario: bench.lesson, title: "" })) {
    if (id === "hundred") continue;
    const first = await rightOf(bench, id, "first");
    expect(first.length, id).toBeGreaterThan(0);
    const isTheory = id === "averaging" || id === "long" || id === "stages";
    for (const seed of isTheory ? seeds.slice(0, 1) : seeds) {
      expect(await rightOf(bench, id, seed), `${id} ${seed}`).toEqual(first);
    }
  }
}
