import type { StabilityRow } from "./stability-row.ts";

/** Allan over Hadamard deviation that no power-law noise up to random-walk FM gives. */
const mostOfNoise = 2;

/**
 * First row of a stability table from which a drift of the rate, not noise, makes the Allan deviation: there and in
 * the next row the Allan deviation is over twice the Hadamard deviation. One row alone could be so by chance.
 *
 * @param rows - with ascending averaging time
 * @returns its index from 0; the number of rows where there is none
 *
 * Source: the Hadamard deviation is free of linear drift, NIST SP 1065, section 5; the factor is own practice.
 * Exact case: a record without noise that drifts gives 0.
 */
export function firstDriftingRow(
  rows: readonly Pick<StabilityRow, "allanDeviation" | "hadamardDeviation">[],
): number {
  const isDrift = rows.map(
    ({ allanDeviation, hadamardDeviation }) =>
      hadamardDeviation !== null && allanDeviation > mostOfNoise * hadamardDeviation,
  );
  const first = isDrift.findIndex((drift, i) => drift && isDrift[i + 1] === true);
  return first < 0 ? rows.length : first;
}
