import { oscillatorClasses, type Range, typicalOf } from "../../noise/index.ts";
import type { KeyRange } from "../../planning/index.ts";
import { type Answers, numbersOf, questions } from "./questions.ts";

/** A key of the scenario to be, and what is known of it. */
export interface DraftKey {
  readonly path: string;
  readonly value: number | string;
  /** Whether somebody stated it, it follows from what was stated, or it is typical. */
  readonly origin: "stated" | "follows" | "guess";
  /** Between which it typically lies. */
  readonly range?: Range;
  /** Where the range comes from. */
  readonly source?: string;
  /** How to find out. */
  readonly find?: string;
}

/** How to find out what a question asks. */
const finds: Readonly<Record<string, string>> = {
  tone: "a second of the drive on an oscilloscope",
  receiver: "turn the drive down until steps are missed; R times C of its circuit",
  steps: "count the bursts of ten ticks on an oscilloscope",
  counter: "its manual",
  swing: "a thermometer that keeps lowest and highest",
};
const practice = "common practice";
const memory = "from memory, check the data sheet";

/** An answer, or what is usual. */
export const answerOf = (name: string, answers: Answers): string =>
  answers[name] ?? questions.find((question) => question.name === name)!.usual(answers);

/**
 * The keys that answers come to; what nobody knows takes typical sizes.
 *
 * @param answers - as given
 * @returns keys in the order of a scenario
 *
 * Source: of each range; sizes of oscillators by `oscillatorClasses`.
 */
export function draftKeys(answers: Answers): readonly DraftKey[] {
  const text = (name: string) => answerOf(name, answers).trim();
  const origin = (name: string) => (answers[name] === undefined ? "guess" : "stated");
  const keys: DraftKey[] = [];
  const key = (
    path: string,
    value: number | string,
    by: string | null,
    range?: Range,
    source = practice,
    find = finds[by ?? ""] ?? "",
  ) => {
    keys.push({
      path,
      value,
      origin: by === null ? "guess" : by === "" ? "follows" : origin(by),
      ...(range && { range, source }),
      ...(find !== "" && { find }),
    });
  };
  const tick = Number(text("tick"));
  const row = oscillatorClasses[text("standard")]!;
  const isBursts = text("drive") === "bursts";
  const swing = Number(text("swing"));
  key("clock.tick_hz", 1 / tick, "tick");
  key("environment.daily_amplitude_k", swing / 2, "swing", [0.25, 5], memory);
  key("reference.nominal_hz", text("standard") === "watch-crystal" ? 32768 : 10e6, "");
  const sheet = "the data sheet; or judge the standard against a better one";
  if (row.agingPerYear[1] > 0) {
    const aging = Number((typicalOf(row.agingPerYear) / 365.25).toPrecision(2));
    key("reference.aging_per_day", aging, null, [aging / 3, aging * 3], row.source, sheet);
  }
  for (const [name, size] of Object.entries(row.temperature)) {
    key(`reference.temperature.${name}`, size, null, [size / 3, size * 3], row.source, sheet);
  }
  key(
    "reference.noise.white_fm_adev_1s",
    typicalOf(row.adev1s),
    null,
    row.adev1s,
    row.source,
    sheet,
  );
  key("reference.noise.flicker_fm_adev", typicalOf(row.floor), null, row.floor, row.source, sheet);
  if (isBursts) {
    const [carrier, burst, volts] = numbersOf(text("tone")) as [number, number, number];
    const [threshold, constant] = numbersOf(text("receiver")) as [number, number];
    const steps = Number(text("steps"));
    const scope = "a second of the drive on an oscilloscope";
    const readings = "ten minutes of readings, judge --scenario";
    key("synthesizer.output_hz", steps / tick, "");
    key("synthesizer.loop.natural_hz", 100, null, [1, 1e4], memory, "its manual");
    key("synthesizer.loop.damping", 0.8, null, [0.7, 1], memory, "its manual");
    // Timing noise of a slow output σ/√(4ζω): 6e-10 to 6e-7 s of a loop of 100 Hz, about what is typical.
    key(
      "synthesizer.noise.white_fm_adev_1s",
      1e-6,
      null,
      [3e-8, 3e-5],
      memory,
      "count the synthesizer",
    );
    key("drive.carrier_hz", carrier, "tone");
    key("drive.burst_s", burst / 1000, "tone");
    key("drive.amplitude_vrms", volts, "tone", [volts / 1.1, volts * 1.1]);
    key("drive.amplitude_noise", 0.01, null, [0.003, 0.03], practice, scope);
    key("receiver.threshold_v", threshold, "receiver", [threshold / 1.1, threshold * 1.1]);
    key("receiver.time_constant_s", constant / 1000, "receiver", [constant / 1500, constant / 700]);
    const noise = (part: number) => Number((threshold * part).toPrecision(2));
    key("receiver.noise_v", noise(0.02), null, [noise(0.005), noise(0.06)], practice, readings);
    key("receiver.steps_per_tick", steps, "steps");
  }
  const [gate, pause, step, trigger] = numbersOf(text("counter")) as [
    number,
    number,
    number,
    number,
  ];
  key("counter.gate_s", gate, "counter");
  key("counter.dead_time_s", pause, "counter", [0, 1], practice, 'its manual, "dead time"');
  key("counter.resolution_s", step, "counter", [1e-9, 1e-7]);
  key(
    "counter.trigger_noise_s",
    trigger,
    "counter",
    [1e-7, 1e-4],
    "noise over slope of the edge; sizes from memory",
  );
  if (text("timebase") === "standard") key("counter.timebase", "reference", "timebase");
  else {
    const bound = text("timebase") === "oven" ? 1e-8 : 1e-6;
    const find = "count the standard itself";
    key("counter.timebase.uncertainty", bound, null, [bound / 3, bound * 3], memory, find);
  }
  return keys;
}

/** The keys that are not known, and between which ends they lie. */
export const unknownRanges = (keys: readonly DraftKey[]): KeyRange[] =>
  keys
    .filter(({ origin, range }) => origin === "guess" && range && range[0] !== range[1])
    .map(({ path, range }) => ({ path, ends: range! }));
