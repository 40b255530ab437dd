import type { MarkerShape } from "./marker.ts";
import type { Hue, Theme } from "./theme.ts";

/** A hue, or the ink of the theme. */
export type SeriesColor = Hue | "ink";

/** How a series looks: three signs, so that colour is never the only one. */
export interface SeriesStyle {
  readonly color: SeriesColor;
  /** Lengths of dash and gap; px. Empty for a solid line. */
  readonly dash: string;
  readonly marker: MarkerShape;
}

const colors: readonly SeriesColor[] = ["blue", "vermilion", "green", "purple", "ink"];
const dashes: readonly string[] = ["", "7 3", "2 3", "10 3 2 3", "12 5"];
const markers: readonly MarkerShape[] = ["circle", "square", "diamond", "triangle", "cross"];

/**
 * The look of the i-th series of a chart; each of the first 25 differs from all others in two signs at least.
 *
 * @param index - number of the series; integer >= 0
 * @returns colour, dash and marker
 * @throws RangeError if index is not an integer >= 0
 *
 * Exact case: 0 is a solid blue line with circles.
 */
export function seriesStyle(index: number): SeriesStyle {
  if (!Number.isInteger(index) || index < 0) {
    throw new RangeError(`seriesStyle: index must be an integer >= 0, got ${index}`);
  }
  const round = Math.floor(index / colors.length);
  return {
    color: colors[index % colors.length]!,
    dash: dashes[(index + round) % dashes.length]!,
    marker: markers[(index + 2 * round) % markers.length]!,
  };
}

/**
 * The colour of a series on a given paper.
 *
 * @param color - name of the colour
 * @param theme - colours of the surroundings
 * @returns the colour as #rrggbb
 */
export function colorOf(color: SeriesColor, theme: Theme): string {
  return color === "ink" ? theme.ink : theme.hues[color];
}
