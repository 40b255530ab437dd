import type { Scenario } from "./scenario.ts";
import type { SenseReport } from "./sense-report.ts";

const short = (value: number) => String(Number(value.toPrecision(3)));

/** Nominal rate of what the counter looks at; Hz. */
function inputRate({ counter, clock, synthesizer, reference }: Scenario): number {
  if (counter.input === "clock") return clock.tickHz;
  if (counter.input === "reference") return reference.nominalHz;
  return synthesizer === null ? reference.nominalHz : synthesizer.outputHz;
}

function senseOfGate(scenario: Scenario, period: number, report: SenseReport): void {
  const { counter, length } = scenario;
  const path = ["counter", "gate_s"];
  const gate = counter.gate === "single" ? period : counter.gate;
  const hasStarts = counter.technique === "time_interval";
  if (hasStarts && counter.gate !== "single" && !Number.isInteger(gate)) {
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
  } else if (2 * gate + counter.deadTime > length) {
    report.warn(
      "few_readings",
      path,
      `leaves room for one reading in the run of ${length} s: nothing will show its scatter`,
    );
  }
  const span = hasStarts && counter.gate === "single" ? 1 : gate;
  for (const [key, value] of [
    ["resolution_s", counter.resolution],
    ["trigger_noise_s", counter.triggerNoise],
  ] as const) {
    if (value >= span) {
      report.fault(
        ["counter", key],
        `is as long as the ${short(span)} s from reading to reading, or longer: readings would say nothing`,
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

/**
 * Checks the counter: does its gate hold an edge, does the run hold a gate, does it see each edge once?
 *
 * @param scenario - a resolved scenario
 * @param report - where findings go
 */
export function senseOfCounter(scenario: Scenario, report: SenseReport): void {
  const { counter, clock } = scenario;
  const rate = inputRate(scenario);
  const period = 1 / rate;
  if (rate * scenario.length > Number.MAX_SAFE_INTEGER) {
    report.fault(
      ["length_s"],
      `holds more edges of the ${counter.input} than can be counted exactly, ${Number.MAX_SAFE_INTEGER}`,
      "shorten the run, or let the counter look at a slower stage",
    );
  }
  senseOfGate(scenario, period, report);
  if (counter.holdoff >= period) {
    report.warn(
      "holdoff_hides_edges",
      ["counter", "holdoff_s"],
      `is not shorter than the ${short(period)} s from edge to edge, so edges are passed over`,
    );
  }
  const { bounce } = clock;
  if (bounce !== null && bounce.within >= 1 / clock.tickHz) {
    report.fault(
      ["clock", "bounce", "within_s"],
      `is as long as the ${short(1 / clock.tickHz)} s from tick to tick, or longer`,
      "shorten it: bounces of one tick are over before the next",
    );
  } else if (bounce !== null && counter.input === "clock" && counter.holdoff < bounce.within) {
    report.warn(
      "bounce_counted",
      ["counter", "holdoff_s"],
      `is shorter than the ${bounce.within} s in which the contact bounces, so bounces are counted as ticks`,
    );
  }
  if (counter.input === "reference" && counter.timebase === "reference") {
    report.warn(
      "timebase_is_input",
      ["counter", "timebase"],
      "is what the counter measures: readings show only resolution and trigger noise",
    );
  }
}
