/** Periods of clocks that are taken where none is given: half seconds, seconds, two seconds, the mean sidereal second. */
const usual = [0.5, 1, 2, 1 / 1.00273790935];

/** How near readings must be to a period that is given, and to one that is not; as a share of it. */
const givenWithin = 0.1;
const assumedWithin = 5e-4;

/**
 * The nominal period that readings belong to.
 *
 * @param period - of the readings; s
 * @param given - nominal period, where it is said; s
 * @returns the given one where the readings are within a tenth of it; else the usual one within 0.05 %; else null
 *
 * Source: length of the sidereal day, Explanatory Supplement to the Astronomical Almanac (from memory); the bounds are
 * common practice, no published source. Exact case: 1.0001 s belongs to 1 s.
 */
export function nearNominal(period: number, given: number | undefined): number | null {
  const isWithin = (nominal: number, share: number) => Math.abs(period / nominal - 1) < share;
  if (given !== undefined) return isWithin(given, givenWithin) ? given : null;
  return usual.find((nominal) => isWithin(nominal, assumedWithin)) ?? null;
}
