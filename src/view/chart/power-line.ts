import { pow } from "../../numeric/index.ts";
import type { KeySample } from "./legend/key-sample.ts";
import { segmentPath } from "./line-path.ts";
import { givenText } from "./number-text.ts";
import type { Plot } from "./panel.ts";
import { type SvgNode, stroked } from "./svg-node.ts";
import type { Theme } from "./theme.ts";

/** A straight line on logarithmic axes: y = level · (x / at)^slope. */
export interface PowerLine {
  /** Whose mark it is. */
  readonly name: string;
  readonly slope: number;
  /** A point it goes through, in SI units; both > 0. */
  readonly at: number;
  readonly level: number;
  /** Stretch of x over which it is drawn; > 0, from < to. */
  readonly from: number;
  readonly to: number;
}

/**
 * Height of a power line.
 *
 * @param line - the line
 * @param x - where; > 0
 * @returns y there
 *
 * Exact case: at x = at it is the level.
 */
export function powerAt(line: PowerLine, x: number): number {
  return line.level * pow(x / line.at, line.slope);
}

/** px */
const guideWidth = 0.75;

/**
 * A guide line is a hairline of the paper's own grey, and its sample in the legend stands at its slope: no curve of data
 * looks like that.
 */
export function powerLineSample({ slope }: PowerLine, theme: Theme): KeySample {
  return { color: theme.muted, dash: "", width: guideWidth, marker: null, slope };
}

const slopeTexts: Readonly<Record<number, string>> = { 0.5: "1/2", 1.5: "3/2" };

/** What a guide line is called: its slope, and whose mark that is. */
export function powerLineText({ name, slope }: PowerLine): string {
  const size = slopeTexts[Math.abs(slope)] ?? givenText(Math.abs(slope));
  return `slope ${slope < 0 ? "−" : slope > 0 ? "+" : ""}${size.replaceAll(" ", "\u00a0")}: ${name}`;
}

/** Draws a guide line, in one path. */
export function drawPowerLine(line: PowerLine, plot: Plot): SvgNode {
  return stroked(
    segmentPath(
      plot.x.position(line.from),
      plot.y.position(powerAt(line, line.from)),
      plot.x.position(line.to),
      plot.y.position(powerAt(line, line.to)),
    ),
    plot.theme.muted,
    guideWidth,
  );
}
