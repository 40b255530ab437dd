import { fixedText } from "../../view/chart/index.ts";

/** A number as a counter displays it, and what of it means something. */
export interface ReadingDigits {
  readonly shown: string;
  /** Rounded to the place that its uncertainty leaves; empty where nothing is left. */
  readonly meant: string;
}

/**
 * Rounds a displayed number where its uncertainty begins.
 *
 * A place means something if one unit of it is at least the standard uncertainty.
 *
 * @param value - what is displayed; finite, any unit
 * @param uncertainty - standard uncertainty; same unit, >= 0; NaN where nothing is known
 * @param decimals - digits that the display has after the point; integer, 0 to 15
 *
 * Source: common practice, no published source (a place is kept while its unit exceeds the uncertainty).
 * Exact case: (0.99643, 0.002, 5) gives `1.00`: 0.996 rounded, not cut.
 */
export function readingDigits(value: number, uncertainty: number, decimals: number): ReadingDigits {
  const shown = fixedText(value, decimals);
  if (uncertainty === 0) return { shown, meant: shown };
  // A hair of tolerance: 0.001 as a double counts as one unit of the third place.
  if (!(uncertainty > 0 && uncertainty < Number.POSITIVE_INFINITY)) return { shown, meant: "" };
  const places = Math.min(decimals, Math.floor(-Math.log10(uncertainty) + 1e-9));
  const unit = Number(`1e${-places}`);
  const rounded = Math.round(value / unit) * unit;
  const isNothing = !(Math.abs(rounded) >= unit / 2);
  return { shown, meant: isNothing ? "" : fixedText(rounded, Math.max(0, places)) };
}
