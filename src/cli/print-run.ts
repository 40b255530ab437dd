import type { RunOptions } from "../chain/index.ts";
import type { Scenario } from "../scenario/index.ts";
import {
  counted,
  estimatorNames,
  halfWidthText,
  humanDuration,
  rateSize,
} from "../view/words/index.ts";
import { estimateTable } from "./estimate-table.ts";
import { headlineInWords } from "./headline-in-words.ts";
import { refusals } from "./refusals.ts";
import type { RunSummary } from "./run-summary.ts";
import type { RunOutcome } from "./simulate.ts";
import { styled, wrap, wroteLine } from "./style.ts";

const recordings = {
  bursts: "every burst computed",
  ticks: "every tick computed",
  lazy: "computed where the counter looked",
} as const;

/** The summary of a run, for people: the answer first, then the truth, then where it all is. */
export function printRun(
  scenario: Scenario,
  options: RunOptions,
  summary: RunSummary,
  outcome: RunOutcome,
): string {
  const { estimates, files } = summary;
  const lines = [
    styled("bold", scenario.title),
    wrap(
      `seed ${options.seed}; ${humanDuration(outcome.length)} simulated, ${recordings[options.recording]}; ` +
        `${counted(outcome.readings, "reading")}, ${gateInWords(scenario)}`,
    ),
    "",
    ...(outcome.wasInterrupted ? ["Interrupted: what was complete is kept.", ""] : []),
    ...(estimates.length > 0
      ? [...answer(summary), ...estimatesInWords(estimates)]
      : ["Too few readings for a rate."]),
    ...truthInWords(scenario, summary),
    "",
    ...Object.values(files).map(wroteLine),
  ];
  return `${lines.join("\n")}\n`;
}

/** The best fit in words; nothing where there is none. */
function answer({ headline, estimates, length_s }: RunSummary): string[] {
  if (headline === null) return [];
  const { over_run: run, steady, systematic_bound: systematicBound } = headline;
  const next = estimates.find(({ method }) => method === "best_fit")?.next_run_standard_deviation;
  const words = headlineInWords(
    {
      overRun: { rate: run.rate, interval95: run.interval_95 },
      steady: { rate: steady.rate, interval95: steady.interval_95 },
      systematicBound,
      // The bound is told below the table.
      systematicCauses: [],
      duration: length_s,
    },
    next ?? Number.NaN,
  );
  return [...words, ""];
}

function estimatesInWords(estimates: RunSummary["estimates"]): string[] {
  const rows = estimates.map((estimate) => ({
    method: estimate.method,
    rate: estimate.rate ?? Number.NaN,
    overRun: half(estimate.interval_95),
    steady: half(estimate.steady_interval_95),
    naive: 1.96 * (estimate.naive_standard_uncertainty ?? Number.NaN),
    truth: estimate.truth.rate_over_run,
  }));
  const bound = estimates[0]!.systematic_bound;
  return [
    ...estimateTable(rows),
    "",
    ...refusals(estimates),
    ...withoutSteadyRate(estimates),
    ...(bound > 0
      ? [
          wrap(
            `Not included: the time base may shift every rate by up to ${halfWidthText(bound, 3)}.`,
          ),
        ]
      : []),
  ];
}

function truthInWords(scenario: Scenario, { truth }: RunSummary): string[] {
  const lines: string[] = [];
  const { steady_rate: steady, slips } = truth;
  if (steady !== null) {
    const gain =
      steady === 0
        ? "neither gains nor loses"
        : `${steady > 0 ? "gains" : "loses"} ${rateSize(Math.abs(steady))}`;
    const against = truth.relative_to === "reference" ? " relative to the reference" : "";
    lines.push(wrap(`Truth: the ${scenario.counter.input} ${gain} from steady causes${against}.`));
  }
  if (slips.length > 0) {
    const size = Math.round(Math.abs(truth.displaced_s) * 1e6) / 1e6;
    const gained = truth.displaced_s < 0 ? "lost" : "gained";
    const count = slips.length + truth.slips_not_listed;
    lines.push(wrap(`Slips: ${count}; with them the dial has ${gained} ${size} s in all.`));
  }
  return lines;
}

function gateInWords({ counter }: Scenario): string {
  if (counter.technique === "time_interval") return "time intervals";
  const gate = counter.gate === "single" ? "single periods" : `gate ${counter.gate} s`;
  return counter.deadTime === 0
    ? `${gate}, back to back`
    : `${gate}, dead time ${counter.deadTime} s`;
}

/** Half the width of an interval; NaN where there is none. */
function half(interval: readonly number[] | null): number {
  return interval === null ? Number.NaN : (interval[1]! - interval[0]!) / 2;
}

/** Which estimates tell no steady rate, and why; nothing where all do. */
function withoutSteadyRate(estimates: RunSummary["estimates"]): string[] {
  const valid = estimates.filter((e) => e.applies);
  const without = valid.filter((e) => e.steady_interval_95 === null);
  if (without.length === 0) return [];
  const names = without.map((e) => estimatorNames[e.method]).join(" or ");
  const by = without.length === valid.length ? "can be given" : `by ${names}`;
  return [wrap(`No steady rate ${by}: ${without[0]!.steady_why}.`)];
}
