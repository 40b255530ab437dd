import type { RateMethod } from "../judgement/index.ts";
import {
  commonRateUnit,
  estimatorNames,
  rateNumber,
  rateNumbersWithin,
  unitAsFraction,
} from "../view/words/index.ts";
import { textTable } from "./style.ts";

/** A rate by one estimator with the half-widths of its intervals at 95 %; dimensionless, NaN for none. */
export interface EstimateRow {
  readonly method: RateMethod;
  readonly rate: number;
  readonly overRun: number;
  readonly steady: number;
  /** What follows from single readings as if they were independent: 1.96 s/√K. */
  readonly naive: number;
  /** The rate that is true, where a simulation knows it. */
  readonly truth?: number | null;
}

/** A table of estimates in one unit, and the line that tells the unit as a fraction. */
export function estimateTable(rows: readonly EstimateRow[]): string[] {
  const sizes = rows.flatMap(({ rate, overRun, steady, naive }) => [
    overRun >= 0 ? Math.max(Math.abs(rate), overRun) : Number.NaN,
    steady,
    naive,
  ]);
  const unit = commonRateUnit(sizes);
  const half = (value: number) => (value >= 0 ? `±${rateNumber(value, unit, 2)}` : "–");
  const cells = rows.map(({ method, rate, overRun, steady, naive, truth }) => [
    estimatorNames[method],
    Number.isFinite(rate + overRun) ? rateNumbersWithin(rate, overRun, unit) : "–",
    Number.isFinite(rate) ? half(steady) : "–",
    Number.isFinite(rate) ? half(naive) : "–",
    truth === undefined || truth === null
      ? "–"
      : `${truth > 0 ? "+" : ""}${rateNumber(truth, unit, digitsBeside(truth, overRun))}`,
  ]);
  const table = [[`${unit.name}, 95 %`, "over this run", "steady", "as s/√K", "truth"], ...cells];
  return [textTable(withoutEmptyColumns(table)), `${unitAsFraction(unit)}.`];
}

/** As many digits as an estimate with this half-width shows, three at least. */
function digitsBeside(truth: number, half: number): number {
  const ratio = half > 0 && truth !== 0 ? Math.abs(truth) / half : 0;
  return ratio > 0 && ratio < Infinity
    ? Math.min(15, Math.max(3, Math.floor(Math.log10(ratio)) + 3))
    : 3;
}

/** A column of dashes is no column. */
const withoutEmptyColumns = (rows: readonly (readonly string[])[]) =>
  rows.map((row) => row.filter((_, column) => rows.slice(1).some((r) => r[column] !== "–")));
