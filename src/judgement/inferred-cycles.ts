import { median } from "../numeric/index.ts";
import type { PeriodReadings } from "../readings/index.ts";

/** Part of a reading's own cycles that it must be off by to have another number of them for certain. */
const farOff = 0.5;
/** Under a rule whose readings add up with so small a part of the other's noise it is taken for certain. */
const certainly = 0.25;

/**
 * Puts in the cycles of each reading where no column tells them. A reciprocal counter stops at the first edge after the
 * gate has lasted, so that a reading holds the fewest cycles whose time reaches the gate,
 *
 *   n = ⌈gate/period⌉
 *
 * Where a gate of whole ticks leaves it open whether a counter keeps to that rule or to one and the same number, the
 * one is taken under which the readings, back to back, add up with far less noise; where neither does, the first, and
 * what the other would make of the rate is in doubt. A reading that is half a cycle off or
 * more follows the rule in any case: an edge was missed in it, or counted twice.
 *
 * @param readings - the record; only where its `gate` is known are the cycles put in
 * @returns the record with its cycles; its gate stays only where it may race with the edges
 *
 * Source: the counter's own rule (Rubiola, Rev. Sci. Instrum. 76, 054703 (2005), reciprocal counters). Exact case: a gate
 * of 50 s and periods of 50/49 s and 51/50 s have 49 and 50 cycles.
 */
export function inferredCycles(readings: PeriodReadings): PeriodReadings {
  const { gate, period, resolution = 0, backToBack, isRate } = readings;
  if (gate === undefined || isRate) return readings;
  const usual = median(period);
  const byRule = period.map((p) => {
    if (Number.isNaN(p)) return Number.NaN;
    const count = gate / p;
    // Digits end somewhere: a count that reaches the gate within them has reached it.
    return Math.max(1, Math.ceil(count - 1e-9 - 0.75 * resolution * count));
  });
  const most = median(byRule);
  const same = period.map((p, i) => {
    const alike = Math.round(gate / usual);
    const number = Math.abs(alike - gate / usual) < 0.25 ? alike : most;
    return Number.isNaN(p) || Math.abs(p / usual - 1) * number > farOff ? byRule[i]! : number;
  });
  if (!backToBack) return { ...readings, cycles: same };
  const [rule, number] = [roughness(readings, byRule), roughness(readings, same)];
  if (rule < certainly * number) return { ...readings, cycles: byRule };
  const isAlike = byRule.every((n, i) => n === same[i] || Number.isNaN(n));
  if (isAlike || number < certainly * rule) {
    const { gate: _, ...rest } = readings;
    return { ...rest, cycles: same };
  }
  const countDoubt = meanSlope(readings, same) - meanSlope(readings, byRule);
  return { ...readings, cycles: byRule, countDoubt };
}

/** Slope of the time error over all readings together. */
function meanSlope({ period, nominalPeriod }: PeriodReadings, cycles: Float64Array): number {
  let count = 0;
  let time = 0;
  for (let i = 0; i < period.length; i++) {
    if (Number.isNaN(period[i]!)) continue;
    count += cycles[i]!;
    time += cycles[i]! * period[i]!;
  }
  return 1 - time / (count * nominalPeriod);
}

/** Mean square second difference of the time error over an eighth of the record; s². */
function roughness({ period, nominalPeriod }: PeriodReadings, cycles: Float64Array): number {
  const size = period.length;
  const x = new Float64Array(size + 1);
  const slope = median(period.map((p) => 1 - p / nominalPeriod));
  for (let i = 0; i < size; i++) {
    const length = cycles[i]! * nominalPeriod;
    const gain = length - cycles[i]! * period[i]! - slope * length;
    // What is missing, or slipped, adds nothing.
    x[i + 1] = x[i]! + (Math.abs(gain) < farOff * nominalPeriod ? gain : 0);
  }
  const m = Math.max(1, size >> 3);
  let square = 0;
  for (let i = 2 * m; i <= size; i++) {
    const d = x[i]! - 2 * x[i - m]! + x[i - 2 * m]!;
    square += d * d;
  }
  return square;
}
