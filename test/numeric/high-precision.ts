import { readFileSync } from "node:fs";
import { join } from "node:path";

const table = JSON.parse(
  readFileSync(join(import.meta.dirname, "high-precision-values.json"), "utf8"),
) as Record<string, number[][]>;

/**
 * Largest relative error of a function over its rows of high-precision values (mpmath, see the file's
 * own source line).
 */
export function worstRelativeError(name: string, f: (...x: number[]) => number): number {
  const rows = table[name]!;
  let worst = rows.length > 0 ? 0 : NaN;
  for (const row of rows) {
    const expected = row[row.length - 1]!;
    const error = Math.abs(f(...row.slice(0, -1)) - expected) / Math.abs(expected);
    // Math.max hands on a NaN, so that a function that gives none fails.
    worst = Math.max(worst, error);
  }
  return worst;
}

/** Half a unit in the last place of 1: the relative error of one rounding. */
export const rounding = 2 ** -53;
