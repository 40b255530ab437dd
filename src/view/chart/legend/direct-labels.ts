import { type SvgNode, textNode } from "../svg-node.ts";
import { textWidth, wrapText } from "../text-width.ts";
import type { Theme } from "../theme.ts";
import { type KeySample, keySample, sampleWidth } from "./key-sample.ts";
import { spread } from "./spread.ts";

/** The name of a series, and where in the plot it belongs. */
export interface SeriesLabel {
  readonly text: string;
  readonly sample: KeySample;
  /** The point of the plot it names; px. */
  readonly anchor: readonly [x: number, y: number];
}

const size = 12;
const lineHeight = 14;
const gap = 5;
const textLeft = sampleWidth + 6;

/** Names broken into lines, before it is known where they will stand. */
export interface WrappedLabels {
  readonly lines: readonly (readonly string[])[];
  /** Widest name with its sample; px. */
  readonly width: number;
  /** All names one under the other; px. */
  readonly height: number;
}

/**
 * Breaks the names of series into lines that fit a column.
 *
 * @param texts - names; any text
 * @param width - room for a name with its sample; px
 * @param lines - most lines a name may take
 * @returns the lines, and the room they need
 */
export function wrapLabels(texts: readonly string[], width: number, lines: number): WrappedLabels {
  const wrapped = texts.map((text) => wrapText(text, size, width - textLeft, lines));
  const widths = wrapped.flat().map((line) => textWidth(line, size));
  return {
    lines: wrapped,
    width: wrapped.length === 0 ? 0 : textLeft + Math.max(...widths),
    height: wrapped.reduce((sum, { length }) => sum + length * lineHeight + gap, 0),
  };
}

/**
 * Names of series in a column at the right of the plot, each beside the end of its line, none overlapping.
 *
 * @param labels - names and the points they name
 * @param wrapped - the same names in lines
 * @param left - left end of the column; px
 * @param top - upper end of the column; px
 * @param bottom - lower end; px
 * @param theme - colours
 * @returns elements; the sample beside a name that had to move tells whose it is
 */
export function directLabels(
  labels: readonly SeriesLabel[],
  wrapped: WrappedLabels,
  left: number,
  top: number,
  bottom: number,
  theme: Theme,
): SvgNode[] {
  const centres = spread(
    labels.map((label) => label.anchor[1]),
    wrapped.lines.map(({ length }) => length * lineHeight + gap),
    top,
    bottom,
  );
  return labels.flatMap(({ sample }, i) => {
    const centre = centres[i]!;
    return [
      ...keySample(sample, left, centre),
      ...nameLines(wrapped.lines[i]!, left, centre, theme),
    ];
  });
}

/**
 * Names of series one under the other, for a picture too narrow to have them beside the lines.
 *
 * @param samples - how the series are drawn
 * @param wrapped - their names in lines
 * @param left - left end; px
 * @param top - upper end; px
 * @param theme - colours
 * @returns elements
 */
export function keyBelow(
  samples: readonly KeySample[],
  wrapped: WrappedLabels,
  left: number,
  top: number,
  theme: Theme,
): SvgNode[] {
  let y = top;
  return samples.flatMap((sample, i) => {
    const lines = wrapped.lines[i]!;
    const height = lines.length * lineHeight + gap;
    const centre = y + height / 2;
    y += height;
    return [...keySample(sample, left, centre), ...nameLines(lines, left, centre, theme)];
  });
}

const nameLines = (
  lines: readonly string[],
  left: number,
  centre: number,
  theme: Theme,
): SvgNode[] =>
  lines.map((line, k) =>
    textNode(
      [left + textLeft, centre + 4 + (k - (lines.length - 1) / 2) * lineHeight],
      line,
      size,
      theme.ink,
    ),
  );
