import { type SenseReport, senseOfNoise, short } from "../../keys/index.ts";
import type { CounterParameters } from "./counter-parameters.ts";
import { gateTimes } from "./gate-times.ts";

/** Where the noise of a time base of its own stands. */
export const timeBaseNoise = ["counter", "timebase", "noise"];

/** What a counter looks at, in numbers. */
export interface WatchedEdges {
  /** Nominal period; s, > 0. */
  readonly period: number;
  /** The contact bounces for so long after an edge; s, 0 where it does not. */
  readonly bounce: number;
}

/**
 * Checks the counter: does its gate hold an edge, does the run hold a gate, does it see each edge once?
 *
 * @param counter - the counter
 * @param edges - what it looks at
 * @param length - of the run; s
 * @param report - where findings go
 */
export function senseOfCounter(
  counter: CounterParameters,
  { period, bounce }: WatchedEdges,
  length: number,
  report: SenseReport,
): void {
  const { input, holdoff, timebase } = counter;
  if (length > Number.MAX_SAFE_INTEGER * period) {
    report.fault(
      ["length_s"],
      `holds more edges of the ${input} than can be counted exactly, ${Number.MAX_SAFE_INTEGER}`,
      "shorten the run, or let the counter look at a slower stage",
    );
  }
  senseOfGate(counter, period, length, report);
  if (holdoff >= period) {
    report.warn(
      "holdoff_hides_edges",
      ["counter", "holdoff_s"],
      `is not shorter than the ${short(period)} s from edge to edge, so edges are passed over`,
    );
  }
  if (holdoff < bounce) {
    report.warn(
      "bounce_counted",
      ["counter", "holdoff_s"],
      `is shorter than the ${bounce} s in which the contact bounces, so bounces are counted as ticks`,
    );
  }
  if (timebase !== "reference") {
    const { shortest } = gateTimes(counter, period);
    senseOfNoise(timebase.noise, [shortest, length], timeBaseNoise, report);
  } else if (input === "reference") {
    report.warn(
      "timebase_is_input",
      ["counter", "timebase"],
      "is what the counter measures: readings show only resolution and trigger noise",
    );
  }
}

function senseOfGate(
  counter: CounterParameters,
  period: number,
  length: number,
  report: SenseReport,
): void {
  const path = ["counter", "gate_s"];
  const { shortest: gate, deadTime } = gateTimes(counter, period);
  const hasStarts = counter.technique === "time_interval";
  if (hasStarts && !Number.isInteger(gate)) {
    report.fault(
      path,
      `must be a whole number of seconds, got ${gate}: a time-interval counter starts on seconds`,
      `use ${Math.max(1, Math.round(gate))}`,
    );
  } else if (!hasStarts && gate < period * (1 - 1e-9)) {
    report.fault(
      path,
      `is shorter than the ${short(period)} s from edge to edge of its input, so it may hold none`,
      "lengthen it, or write single for one period a reading",
    );
  } else if (gate > length) {
    report.fault(path, `is longer than the run of ${length} s`, "shorten it, or raise length_s");
  } else if (2 * gate + deadTime > length) {
    report.warn(
      "few_readings",
      path,
      `leaves room for one reading in the run of ${length} s: nothing will show its scatter`,
    );
  }
  for (const [key, value] of [
    ["resolution_s", counter.resolution],
    ["trigger_noise_s", counter.triggerNoise],
  ] as const) {
    if (value >= gate) {
      report.fault(
        ["counter", key],
        `is as long as the ${short(gate)} s from reading to reading, or longer: readings would say nothing`,
        "lower it; it is in seconds",
      );
    }
  }
  if (counter.gateMax !== null && gate > counter.gateMax) {
    report.fault(
      path,
      `is longer than gate_max_s, ${counter.gateMax} s`,
      "shorten it, or raise counter.gate_max_s",
    );
  }
  if (hasStarts && counter.deadTime > 0) {
    report.warn(
      "no_effect",
      ["counter", "dead_time_s"],
      "has no effect on a time-interval counter: it starts on seconds",
    );
  }
}
