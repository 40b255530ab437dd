import type { RunOptions } from "../chain/index.ts";
import { humanDuration } from "../planning/index.ts";
import type { Scenario } from "../scenario/index.ts";
import { counted } from "./counted.ts";
import { methodNames } from "./method-names.ts";
import { plainRate } from "./plain-rate.ts";
import { howToRead, rateCells, rateHead, truthBeside } from "./rate-columns.ts";
import { refusals } from "./refusals.ts";
import type { RunSummary } from "./run-summary.ts";
import type { RunOutcome } from "./simulate.ts";
import { styled, textTable, wrap, wroteLine } from "./style.ts";

const recordings = {
  bursts: "every burst computed",
  ticks: "every tick computed",
  lazy: "computed where the counter looked",
} as const;

const watched = {
  clock: "the clock",
  synthesizer: "the synthesizer",
  reference: "the reference",
} as const;

/** The summary of a run, for people: the answer first, then the truth, then where it all is. */
export function printRun(
  scenario: Scenario,
  options: RunOptions,
  summary: RunSummary,
  outcome: RunOutcome,
): string {
  const { truth, estimates } = summary;
  const lines = [styled("bold", scenario.title)];
  const length = humanDuration(outcome.length);
  lines.push(
    wrap(
      `seed ${options.seed}; ${length} simulated, ${recordings[options.recording]}; ` +
        `${counted(outcome.readings, "reading")}${gateInWords(scenario)}`,
    ),
    "",
  );
  if (outcome.wasInterrupted) lines.push("Interrupted: what was complete is kept.", "");
  const rows = estimates.map((estimate) => [
    methodNames[estimate.method],
    ...rateCells(
      estimate.rate ?? Number.NaN,
      half(estimate.interval_95),
      half(estimate.steady_interval_95),
      1.96 * (estimate.naive_standard_uncertainty ?? Number.NaN),
    ),
    estimate.truth.rate_over_run === null
      ? "–"
      : truthBeside(estimate.truth.rate_over_run, half(estimate.interval_95)),
  ]);
  if (rows.length > 0) {
    const head = ["rate, 95 %", ...rateHead, "truth"];
    const [first] = estimates;
    lines.push(
      textTable([head, ...rows]),
      ...howToRead(first!.rate ?? Number.NaN, half(first!.interval_95)),
      "",
    );
    lines.push(...refusals(estimates));
    lines.push(...withoutSteadyRate(estimates));
    const bound = estimates[0]!.systematic_bound;
    if (bound > 0) {
      lines.push(
        wrap(
          `Beside this the time base may shift every rate by up to ${plainRate(bound).replace("+", "±")}.`,
        ),
      );
    }
  } else {
    lines.push("Too few readings for a rate.");
  }
  const steady = truth.steady_rate;
  if (steady !== null) {
    lines.push(
      wrap(
        `Truth: ${watched[scenario.counter.input]} ${gainInWords(steady)} from steady causes` +
          `${truth.relative_to === "reference" ? " relative to the reference" : ""}.`,
      ),
    );
  }
  if (truth.slips.length > 0) {
    lines.push(
      wrap(
        `Slips: ${truth.slips.length + truth.slips_not_listed}; with them the dial has ` +
          `${displaced(truth.displaced_s)} in all.`,
      ),
    );
  }
  const { files } = summary;
  lines.push("", ...Object.values(files).map(wroteLine));
  return `${lines.join("\n")}\n`;
}

function gateInWords({ counter }: Scenario): string {
  const gate = counter.gate === "single" ? "single periods" : `gate ${counter.gate} s`;
  if (counter.technique === "time_interval") return ", time intervals";
  return counter.deadTime === 0
    ? `, ${gate}, back to back`
    : `, ${gate}, dead time ${counter.deadTime} s`;
}

/** Half the width of an interval; NaN where there is none. */
function half(interval: readonly number[] | null): number {
  return interval === null ? Number.NaN : (interval[1]! - interval[0]!) / 2;
}

function gainInWords(rate: number): string {
  if (rate === 0) return "neither gains nor loses";
  return `${rate > 0 ? "gains" : "loses"} ${plainRate(Math.abs(rate)).replace("+", "")}`;
}

function displaced(seconds: number): string {
  const size = Math.round(Math.abs(seconds) * 1e6) / 1e6;
  return `${seconds < 0 ? "lost" : "gained"} ${size} s`;
}

/** Which estimates tell no steady rate, and why; nothing where all do. */
function withoutSteadyRate(estimates: RunSummary["estimates"]): string[] {
  const valid = estimates.filter((e) => e.applies);
  const without = valid.filter((e) => e.steady_interval_95 === null);
  if (without.length === 0) return [];
  const names = without.map((e) => methodNames[e.method]).join(" or ");
  const by = without.length === valid.length ? "can be given" : `by ${names}`;
  return [wrap(`No steady rate ${by}: ${without[0]!.steady_why}.`)];
}
