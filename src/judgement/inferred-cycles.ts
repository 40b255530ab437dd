import type { PeriodReadings } from "../readings/index.ts";

/**
 * Puts in the cycles of each reading where no column tells them: a reciprocal counter stops at the first edge after the
 * gate has lasted, so that a reading holds the fewest cycles whose time reaches the gate.
 *
 *   n = ⌈gate/period⌉
 *
 * @param readings - the record; only where its `gate` is known are the cycles put in
 * @returns the record with its cycles
 *
 * Source: the counter's own rule (Rubiola, Rev. Sci. Instrum. 76, 054703 (2005), reciprocal counters). Exact case: a gate
 * of 50 s and periods of 50/49 s and 51/50 s have 49 and 50 cycles.
 */
export function inferredCycles(readings: PeriodReadings): PeriodReadings {
  const { gate, period, resolution = 0 } = readings;
  if (gate === undefined || readings.isRate) return readings;
  const cycles = period.map((p) => {
    if (Number.isNaN(p)) return Number.NaN;
    const count = gate / p;
    // Digits end somewhere: a count that reaches the gate within them has reached it.
    return Math.max(1, Math.ceil(count - 1e-9 - 0.75 * resolution * count));
  });
  return { ...readings, cycles };
}
