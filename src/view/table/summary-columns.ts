import { type RateEstimate, type RateMethod, rateMethods } from "../../judgement/index.ts";
import type { EstimateTruth } from "../../planning/index.ts";
import type { Column } from "./column.ts";

/** A cell of a row: null where a run gave no value. */
export type SummaryCell = number | boolean | null;

/** Names of the cells of one method, without the name of the method. */
const cellNames = [
  "rate",
  "standard_uncertainty",
  "truth_rate_over_run",
  "covered",
  "truth_steady_rate",
  "steady_covered",
  "applies",
] as const;

/** How many cells a row has beside its varied values and its seed. */
export const summaryCellCount: number = rateMethods.length * cellNames.length;

const described = {
  rate: "Rate f/f0 - 1 that the estimator found, positive = fast; empty where it found none, or where the clock ran on its own oscillator for more than a tenth of the run",
  standard_uncertainty:
    "Its standard uncertainty about the rate over the run, as the readings alone show it",
  truth_rate_over_run:
    "The same estimator applied to the same edges without timing noise and counter error",
  covered:
    "Whether the 95 % interval, freed from the known offset of the time base, holds truth_rate_over_run",
  truth_steady_rate: "The same truth from deterministic causes alone",
  steady_covered:
    "Whether the 95 % interval about the steady rate, freed likewise, holds truth_steady_rate; empty where the noise found lets no mean converge",
  applies: "Whether the estimator answers the question asked, and its intervals can be trusted",
} as const;

const typeOf = (name: (typeof cellNames)[number]) =>
  name === "covered" || name === "steady_covered" || name === "applies" ? "boolean" : "number";

/**
 * Columns of summary.csv: the varied values, the seed, and the cells of each method.
 *
 * @param varied - paths of the varied keys, and whether all their values are numbers
 * @returns columns in the order of the file
 */
export function summaryColumns(
  varied: readonly { readonly path: string; readonly isNumeric: boolean }[],
): Column[] {
  const keys = varied.map(
    ({ path, isNumeric }): Column => ({
      name: path,
      type: isNumeric ? "number" : "string",
      title: path,
      description: "Value of this key of the scenario in the run",
      unit: null,
      required: true,
    }),
  );
  const seed: Column = {
    name: "seed",
    type: "string",
    title: "Seed",
    description: "Seed of the run; with the varied values it makes the same run again",
    unit: null,
    required: true,
  };
  const cells = rateMethods.flatMap((method) =>
    cellNames.map(
      (name): Column => ({
        name: `${method}_${name}`,
        type: typeOf(name),
        title: `${method.replaceAll("_", " ")}: ${name.replaceAll("_", " ")}`,
        description: described[name],
        unit: typeOf(name) === "number" ? "1" : null,
        required: false,
      }),
    ),
  );
  return [...keys, seed, ...cells];
}

/**
 * The cells of a run's row.
 *
 * @param estimates - its estimates; none where it gave too few readings
 * @param truths - their truths, or null where there are none
 * @param shift - fractional offset of the counter's time base, which makes every rate read (1 + rate)/(1 + shift) − 1
 * @returns `summaryCellCount` cells
 */
export function summaryCells(
  estimates: readonly RateEstimate[],
  truths: Readonly<Record<RateMethod, EstimateTruth>> | null,
  shift: number,
): SummaryCell[] {
  return rateMethods.flatMap((method): SummaryCell[] => {
    const estimate = estimates.find((candidate) => candidate.method === method);
    if (estimate === undefined || truths === null) return cellNames.map(() => null);
    const { rateOverRun, steadyRate } = truths[method];
    return [
      known(estimate.rate),
      known(estimate.standardUncertainty),
      known(rateOverRun),
      holds(estimate.interval95, rateOverRun, shift),
      known(steadyRate),
      holds(estimate.steadyInterval95, steadyRate, shift),
      estimate.applies,
    ];
  });
}

const known = (value: number): number | null => (Number.isFinite(value) ? value : null);

function holds(
  interval: readonly [number, number] | null,
  truth: number,
  shift: number,
): boolean | null {
  if (interval === null || Number.isNaN(interval[0]) || Number.isNaN(truth)) return null;
  const [low, high] = interval;
  return (1 + low) * (1 + shift) <= 1 + truth && 1 + truth <= (1 + high) * (1 + shift);
}
