import {
  type Axis,
  type AxisSpec,
  type Box,
  bottomAxis,
  leftAxis,
  makeAxis,
  tickTextWidth,
} from "./axis.ts";
import { type ChartOptions, completeOptions } from "./chart-options.ts";
import { squareDecades } from "./domain.ts";
import { directLabels, keyBelow, wrapLabels } from "./legend/direct-labels.ts";
import type { KeySample } from "./legend/key-sample.ts";
import { pictureHeader, pictureRoot } from "./picture.ts";
import type { SvgNode } from "./svg-node.ts";
import { svgNode } from "./svg-node.ts";
import type { Theme } from "./theme.ts";

/** A laid-out plot, ready to be drawn in. */
export interface Plot {
  readonly x: Axis;
  readonly y: Axis;
  readonly box: Box;
  readonly theme: Theme;
  readonly idPrefix: string;
}

/** A series to be named. */
export interface NamedSeries {
  readonly text: string;
  readonly sample: KeySample;
  /** A point of the plot that belongs to it, in SI units; clamped to the plot. */
  readonly at: readonly [x: number, y: number];
}

/** A chart with two axes. */
export interface FrameSpec {
  /** What is shown, in a few words. */
  readonly heading: string;
  /** The same in full sentences, with the numbers, for those who cannot see it. */
  readonly description: string;
  readonly x: AxisSpec;
  readonly y: AxisSpec;
  /** Room above the data, for marks of its own; px. */
  readonly headroom?: number;
  /** Makes a decade equally long on both axes, where both are logarithmic. */
  readonly isSquare?: boolean;
  readonly series: readonly NamedSeries[];
  /** Draws the data; what lies outside the plot is clipped. */
  readonly draw: (plot: Plot) => readonly SvgNode[];
  /** Draws what may reach beyond the plot. */
  readonly drawOver?: (plot: Plot) => readonly SvgNode[];
}

const margin = 16;
const belowPlot = 50;
const besidePlot = 18;

/**
 * A whole picture: paper, heading, axes with quantity and unit, data, and a name beside every series.
 *
 * @param spec - axes, data and names
 * @param options - title, size, colours
 * @returns an `svg` element with title and description for screen readers
 */
export function frame(spec: FrameSpec, options: ChartOptions): SvgNode {
  const { width, theme, idPrefix, ...rest } = completeOptions(options);
  const isNarrow = width < 560;
  const texts = spec.series.map((series) => series.text);
  const names = isNarrow
    ? wrapLabels(texts, width - 2 * margin, 3)
    : wrapLabels(texts, width * 0.32, 3);
  const header = pictureHeader(spec.heading, options.title, width, theme);
  const top = header.height + 32;
  const keyHeight = isNarrow ? names.height : 0;
  const height = Math.max(
    rest.height + keyHeight,
    isNarrow ? 0 : top - 20 + names.height + margin,
    top + 120 + belowPlot + keyHeight,
  );
  const bottom = height - belowPlot - keyHeight;
  const right = isNarrow
    ? width - margin - 8
    : width - margin - Math.max(names.width + besidePlot, 20);

  let [xSpec, ySpec] = [spec.x, spec.y];
  const leftOf = (ySpecNow: AxisSpec) =>
    margin + Math.max(20, tickTextWidth(makeAxis(ySpecNow, bottom, top, 22)) + 8);
  if (spec.isSquare) {
    const [xDomain, yDomain] = squareDecades(
      xSpec.domain,
      ySpec.domain,
      right - leftOf(ySpec),
      bottom - top,
    );
    xSpec = { ...xSpec, domain: xDomain };
    ySpec = { ...ySpec, domain: yDomain };
  }
  const box: Box = { left: leftOf(ySpec), right, top, bottom };
  const x = makeAxis(xSpec, box.left, box.right, xSpec.kind === "log" ? 44 : 70);
  const y = makeAxis(
    ySpec,
    box.bottom,
    box.top + (spec.headroom ?? 0),
    ySpec.kind === "log" ? 22 : 44,
  );
  const plot: Plot = { x, y, box, theme, idPrefix };

  const labels = spec.series.map(({ text, sample, at }) => ({
    text,
    sample,
    anchor: [
      clamp(x.position(at[0]), box.left, box.right),
      clamp(y.position(at[1]), box.top, box.bottom),
    ] as const,
  }));
  return pictureRoot(
    { ...spec, title: options.title, idPrefix, width, height, theme },
    clipPath(plot),
    ...header.nodes,
    bottomAxis(x, box, theme),
    leftAxis(y, box, theme, margin),
    svgNode("g", { "clip-path": `url(#${idPrefix}-clip)`, fill: "none" }, ...spec.draw(plot)),
    ...(spec.drawOver ? [svgNode("g", { fill: "none" }, ...spec.drawOver(plot))] : []),
    svgNode(
      "g",
      { fill: "none" },
      ...(isNarrow
        ? keyBelow(
            labels.map((label) => label.sample),
            names,
            margin,
            bottom + belowPlot - 4,
            theme,
          )
        : directLabels(
            labels,
            names,
            right + besidePlot,
            top - 20,
            Math.max(bottom + 10, top - 20 + names.height),
            theme,
          )),
    ),
  );
}

const clamp = (value: number, low: number, high: number): number =>
  Math.max(low, Math.min(high, value));

const clipPath = ({ box, idPrefix }: Plot): SvgNode =>
  svgNode(
    "clipPath",
    { id: `${idPrefix}-clip` },
    svgNode("rect", {
      x: box.left,
      y: box.top - 4,
      width: box.right - box.left + 4,
      height: box.bottom - box.top + 8,
    }),
  );
