import {
  type Axis,
  type AxisSpec,
  type Box,
  bottomAxis,
  leftAxis,
  makeAxis,
  tickTextWidth,
} from "./axis.ts";
import { squareDecades } from "./domain.ts";
import { directLabels, keyBelow, type WrappedLabels, wrapLabels } from "./legend/direct-labels.ts";
import type { KeySample } from "./legend/key-sample.ts";
import { type SvgNode, svgNode } from "./svg-node.ts";
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

/** A plot with two axes, and names beside its series. */
export interface PanelSpec {
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

/** Where a panel may lie. */
export interface PanelPlace {
  readonly theme: Theme;
  readonly idPrefix: string;
  /** Width of the picture; px. */
  readonly width: number;
  /** As in `ChartOptions`. */
  readonly rateUnit: string | undefined;
  /** Upper end, below the heading; px. */
  readonly top: number;
  /** Height wanted, without a key below; px. */
  readonly height: number;
  /** Least room for numbers at the left; px. */
  readonly left: number;
  /** Least room for names at the right; px. */
  readonly right: number;
}

/** A panel whose place is settled. */
export interface Panel {
  readonly spec: PanelSpec;
  readonly place: PanelPlace;
  readonly names: WrappedLabels;
  readonly isNarrow: boolean;
  readonly plot: Plot;
  /** Lower end, names included; px. */
  readonly bottom: number;
}

/** Room around everything; px. */
export const margin = 16;

const aboveBox = 32;
const belowBox = 50;
const besideBox = 18;
const leastBox = 120;

/**
 * Settles where axes and names of a panel lie.
 *
 * @param spec - what it shows
 * @param place - where it may lie; it takes more height where its names need more
 * @returns the panel, ready to be drawn
 */
export function layPanel(spec: PanelSpec, place: PanelPlace): Panel {
  const { width, theme, idPrefix } = place;
  const isNarrow = width < 560;
  const names = wrapLabels(
    spec.series.map((series) => series.text),
    isNarrow ? width - 2 * margin : width * 0.32,
    3,
  );
  const top = place.top + aboveBox;
  const height = Math.max(
    place.height,
    aboveBox + leastBox + belowBox,
    isNarrow ? 0 : aboveBox - 20 + names.height + margin,
  );
  const bottom = place.top + height - belowBox;
  const right = width - margin - (isNarrow ? 8 : Math.max(names.width + besideBox, place.right));

  const { rateUnit } = place;
  let [xSpec, ySpec] = [
    { ...spec.x, rateUnit },
    { ...spec.y, rateUnit },
  ];
  const leftOf = (axis: AxisSpec) =>
    Math.max(place.left, margin + 8 + Math.max(12, tickTextWidth(makeAxis(axis, bottom, top, 22))));
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
  const x = makeAxis(xSpec, box.left, box.right, "text");
  const upper = box.top + (spec.headroom ?? 0);
  const y = makeAxis(ySpec, box.bottom, upper, ySpec.kind === "log" ? 22 : 20);
  return {
    spec,
    place,
    names,
    isNarrow,
    plot: { x, y, box, theme, idPrefix },
    bottom: place.top + height + (isNarrow ? names.height : 0),
  };
}

/**
 * Room that a panel takes at its sides, so that panels above one another can be brought in line.
 *
 * @param panel - the panel
 * @returns px from the left edge to its plot, and from its plot to the margin at the right
 */
export function sidesOf({ plot, place }: Panel): { readonly left: number; readonly right: number } {
  return { left: plot.box.left, right: place.width - margin - plot.box.right };
}

/**
 * Draws a panel: axes with quantity and unit, data, and a name beside every series.
 *
 * @param panel - the panel
 * @returns elements
 */
export function drawPanel({ spec, place, names, isNarrow, plot }: Panel): SvgNode[] {
  const { x, y, box, theme, idPrefix } = plot;
  const labels = spec.series.map(({ text, sample, at }) => ({
    text,
    sample,
    anchor: [
      clamp(x.position(at[0]), box.left, box.right),
      clamp(y.position(at[1]), box.top, box.bottom),
    ] as const,
  }));
  const samples = labels.map((label) => label.sample);
  const [top, bottom] = [place.top + aboveBox - 20, box.bottom + 10];
  return [
    clipPath(plot),
    bottomAxis(x, box, theme, x.note ?? y.note, margin),
    leftAxis(y, box, theme, margin),
    svgNode("g", { "clip-path": `url(#${idPrefix}-clip)`, fill: "none" }, ...spec.draw(plot)),
    ...(spec.drawOver ? [svgNode("g", { fill: "none" }, ...spec.drawOver(plot))] : []),
    svgNode(
      "g",
      { fill: "none" },
      ...(isNarrow
        ? keyBelow(samples, names, margin, box.bottom + belowBox - 4, theme)
        : directLabels(
            labels,
            names,
            box.right + besideBox,
            top,
            Math.max(bottom, top + names.height),
            theme,
          )),
    ),
  ];
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
