import { present } from "../numeric/index.ts";
import type { Readings } from "../readings/index.ts";

/** A caution about a record: no spread is not certainty. */
export interface DigitWarning {
  readonly code: "frozen" | "coarse" | "repeated";
  readonly message: string;
}

/**
 * Cautions about digits: a record that does not move, or moves in steps coarser than its noise.
 *
 *   frozen: all readings equal · coarse: at most five different values, or half of the neighbours equal
 *   repeated: a run of equal readings longer than chance allows (ln K / ln(1/p) + 6, p the share of equal neighbours)
 *
 * @param readings - the record; K readings, missing ones left out
 * @returns the cautions that hold; none for fewer than five readings
 *
 * Source: common practice, no published source. Exact case: equal readings are frozen.
 */
export function digitWarnings(readings: Readings): DigitWarning[] {
  const all = readings.kind === "period" ? readings.period : readings.timeError;
  const values = present(all);
  if (values.length < 5) return [];
  const different = new Set<number>();
  for (let i = 0; i < values.length && different.size <= 5; i++) different.add(values[i]!);
  if (different.size === 1) {
    return [
      {
        code: "frozen",
        message: `all ${values.length} readings are the same to the last digit; that shows the record's digits, not the clock's steadiness`,
      },
    ];
  }
  let equal = 0;
  let run = 1;
  let longest = 1;
  for (let i = 1; i < values.length; i++) {
    run = values[i] === values[i - 1] ? run + 1 : 1;
    if (run > 1) equal++;
    longest = Math.max(longest, run);
  }
  const share = equal / (values.length - 1);
  if (share >= 0.5 || (different.size <= 5 && values.length >= 20)) {
    return [
      {
        code: "coarse",
        message: `the readings move in steps coarser than their noise (${Math.round(100 * share)} % equal their neighbour), so their scatter understates it`,
      },
    ];
  }
  const byChance = share > 0 ? Math.log(values.length) / -Math.log(share) + 6 : 6;
  return longest > byChance
    ? [
        {
          code: "repeated",
          message: `${longest} readings in a row are the same to the last digit: the record may have stood still there`,
        },
      ]
    : [];
}
