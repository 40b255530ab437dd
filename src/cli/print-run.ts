import type { RunOptions } from "../chain/simulation.ts";
import { humanDuration } from "../planning/human-duration.ts";
import { rateInWords } from "../planning/rate-in-words.ts";
import type { Scenario } from "../scenario/scenario.ts";
import { methodNames } from "./method-names.ts";
import { plainRate } from "./plain-rate.ts";
import type { RunSummary } from "./run-summary.ts";
import type { RunOutcome } from "./simulate.ts";
import { styled, textTable, wrap } from "./style.ts";

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
  const { truth, estimates } = summary;
  const lines = [styled("bold", scenario.title)];
  const length = humanDuration(outcome.length);
  lines.push(
    wrap(
      `seed ${options.seed}; ${length} simulated, ${recordings[options.recording]}; ` +
        `${outcome.readings} readings${gateInWords(scenario)}`,
    ),
    "",
  );
  if (outcome.wasInterrupted) lines.push("Interrupted: what was complete is kept.", "");
  const rows = estimates.map((estimate) => [
    methodNames[estimate.method],
    estimate.rate === null ? "–" : inWords(estimate.rate, estimate.interval_95),
    estimate.steady_interval_95 ? inWords(estimate.rate!, estimate.steady_interval_95) : "–",
    naiveInWords(estimate.rate, estimate.naive_standard_uncertainty),
    estimate.truth.rate_over_run === null ? "–" : plainRate(estimate.truth.rate_over_run),
  ]);
  if (rows.length > 0) {
    const head = ["rate, 95 %", "over this run", "steady", "as s/√K has it", "truth"];
    lines.push(textTable([head, ...rows]), "");
    for (const estimate of estimates) {
      if (!estimate.applies) {
        lines.push(
          wrap(`${methodNames[estimate.method]} does not apply: ${estimate.why}`, 80, "  "),
        );
      }
    }
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
        `Truth: the clock gains ${plainRate(steady)} from steady causes` +
          `${truth.relative_to === "reference" ? " relative to the reference" : ""}.`,
      ),
    );
  }
  if (truth.slips.length > 0) {
    lines.push(
      wrap(
        `Slips: ${truth.slips.length + truth.slips_not_listed}, displacing the dial by ` +
          `${signed(truth.displaced_s)} s in all.`,
      ),
    );
  }
  const { files } = summary;
  lines.push("", ...Object.values(files).map((file) => `wrote ${file}`));
  return `${lines.join("\n")}\n`;
}

function gateInWords({ counter }: Scenario): string {
  const gate = counter.gate === "single" ? "single periods" : `gate ${counter.gate} s`;
  if (counter.technique === "time_interval") return ", time intervals";
  return counter.deadTime === 0
    ? `, ${gate}, back to back`
    : `, ${gate}, dead time ${counter.deadTime} s`;
}

function inWords(rate: number, interval: readonly number[] | null): string {
  if (interval === null) return rateInWords(rate, 0);
  return rateInWords(rate, (interval[1]! - interval[0]!) / 2);
}

/** Expanded (95 %) naive uncertainty, to be compared with the honest one. */
function naiveInWords(rate: number | null, naive: number | null): string {
  return rate === null || naive === null ? "–" : rateInWords(rate, 1.96 * naive);
}

function signed(value: number): string {
  const text = String(Math.round(value * 1e6) / 1e6);
  return value > 0 ? `+${text}` : text;
}
