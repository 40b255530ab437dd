import { pow } from "../../numeric/index.ts";
import type { KeySample } from "./legend/key-sample.ts";
import { segmentPath } from "./line-path.ts";
import type { Plot } from "./panel.ts";
import { type SvgNode, svgNode } from "./svg-node.ts";
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

/** Dots and dashes of guide lines, by their order in a chart: finer than those of any series. */
const guideDashes = ["1 3", "5 2 1 2", "1 5", "3 3", "8 2 1 2 1 2"];

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

/**
 * How the i-th guide line of a chart is drawn.
 *
 * @param index - its number; integer >= 0
 * @param theme - colours
 * @returns the sample for its name
 */
export function powerLineSample(index: number, theme: Theme): KeySample {
  return {
    color: theme.muted,
    dash: guideDashes[index % guideDashes.length]!,
    width: 1.5,
    marker: null,
  };
}

/**
 * Draws a guide line.
 *
 * @param line - the line
 * @param index - its number in the chart; integer >= 0
 * @param plot - where
 * @returns one path
 */
export function drawPowerLine(line: PowerLine, index: number, plot: Plot): SvgNode {
  const sample = powerLineSample(index, plot.theme);
  return svgNode("path", {
    d: segmentPath(
      plot.x.position(line.from),
      plot.y.position(powerAt(line, line.from)),
      plot.x.position(line.to),
      plot.y.position(powerAt(line, line.to)),
    ),
    stroke: sample.color,
    "stroke-width": sample.width,
    "stroke-dasharray": sample.dash ?? undefined,
  });
}
