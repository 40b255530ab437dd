/** A number split into the digits that mean something and those that do not. */
export interface ReadingDigits {
  readonly sure: string;
  readonly unsure: string;
  /** Digits that mean something; zeros before the first other digit hold the place and are none. */
  readonly count: number;
}

/**
 * Splits a displayed number where its uncertainty begins.
 *
 * A digit means something if one unit of its place is at least the standard uncertainty. Digits before the
 * point that do not are kept, since they hold the place.
 *
 * @param value - what is displayed; finite, any unit
 * @param uncertainty - standard uncertainty; same unit, >= 0; NaN where nothing is known, which leaves no digit sure
 * @param decimals - digits that the display has after the point; integer, 0 to 15
 * @returns the two parts; joined they are the display
 *
 * Source: common practice, no published source (a place is kept while its unit exceeds the uncertainty).
 * Exact case: (12.3456, 0.02, 4) gives `12.3` and `456`, and three digits; of `0.997` three mean something too.
 */
export function readingDigits(value: number, uncertainty: number, decimals: number): ReadingDigits {
  const shown = value.toFixed(decimals).replace("-", "−");
  const places = surePlaces(uncertainty, decimals);
  const point = shown.indexOf(".");
  const whole = point < 0 ? shown.length : point;
  const end = places > 0 ? whole + 1 + places : whole + places;
  const sure = places === Number.NEGATIVE_INFINITY ? "" : shown.slice(0, Math.max(0, end));
  const count = sure.replace(/\D/g, "").replace(/^0+/, "").length;
  if (count === 0) return { sure: "", unsure: shown, count };
  return { sure, unsure: shown.slice(end), count };
}

/** How many places after the point are sure; negative: so many before it are not. */
function surePlaces(uncertainty: number, decimals: number): number {
  if (Number.isNaN(uncertainty)) return Number.NEGATIVE_INFINITY;
  if (uncertainty === 0) return decimals;
  // A hair of tolerance: 0.001 as a double counts as one unit of the third place.
  return Math.min(decimals, Math.floor(-Math.log10(uncertainty) + 1e-9));
}
