import { type ChartOptions, completeOptions } from "./chart-options.ts";
import { decimate } from "./decimate.ts";
import { decimatedLine } from "./decimated-line.ts";
import { quantityText } from "./display-unit.ts";
import { finiteExtent, padLinear } from "./domain.ts";
import { frame, type NamedSeries, type Plot } from "./frame.ts";
import { markersNode } from "./legend/key-sample.ts";
import { linePath, segmentPath } from "./line-path.ts";
import { robustDomain } from "./robust-domain.ts";
import { roundCoordinate, type SvgNode, svgNode } from "./svg-node.ts";

/** What the chart shows. */
export interface ReadingsChartInput {
  /** Start of each reading; s, ascending. */
  readonly time: Float64Array;
  /** The readings; in `unit`, NaN for none. */
  readonly reading: Float64Array;
  /** Mean of all readings so far; in `unit`, NaN for none. */
  readonly mean: Float64Array;
  /** Half-width of the 95 % interval of that mean; in `unit`, NaN for none. */
  readonly halfWidth: Float64Array;
  /** What is true; in `unit`, or null where nobody knows. */
  readonly truth: number | null;
  /** What is read; default `Rate`. */
  readonly quantity?: string;
  /** Its SI unit, `s/d` or `1`; default `1`. */
  readonly unit?: string;
}

const truthDash = "9 4";
const bandOpacity = 0.25;

/** Strokes of crowded readings let the mean and its band show through. */
const crowdOpacity = 0.4;

/**
 * Single readings in time, with their running mean, its uncertainty as a band, and the truth.
 *
 * @param input - readings and what follows from them
 * @param options - title, size, colours
 * @returns the picture; wild readings beyond the scale are triangles at its edge
 * @throws RangeError if arrays differ in length or no reading is finite
 */
export function readingsChart(input: ReadingsChartInput, options: ChartOptions): SvgNode {
  const { time, reading, truth, quantity = "Rate", unit = "1" } = input;
  for (const record of [reading, input.mean, input.halfWidth]) {
    if (record.length !== time.length) {
      throw new RangeError(
        `readingsChart: arrays must be of equal length, got ${time.length} and ${record.length}`,
      );
    }
  }
  const seen = robustDomain(reading);
  const span = finiteExtent(time);
  if (seen === null || span === null) {
    throw new RangeError("readingsChart: reading must hold at least one finite value, got none");
  }
  const { theme } = completeOptions(options);
  const last = input.mean.findLastIndex(Number.isFinite);
  const [low, high] = finiteExtent(seen, truth === null ? [] : [truth])!;
  const beyond = reading.filter((value) => value < low || value > high).length;
  const end = span[1];
  const series: NamedSeries[] = [
    {
      text: isCrowded(reading) ? "single readings, lowest to highest" : "single readings",
      sample: {
        color: theme.hues.green,
        dash: null,
        marker: isCrowded(reading) ? null : "circle",
        ...(isCrowded(reading) ? { band: { fill: theme.hues.green, opacity: crowdOpacity } } : {}),
      },
      at: [end, high],
    },
  ];
  if (last >= 0) {
    series.push({
      text: "mean of all readings so far, and its 95\u00a0% interval",
      sample: {
        color: theme.hues.blue,
        dash: "",
        width: 2,
        marker: null,
        band: { fill: theme.hues.blue, opacity: bandOpacity },
      },
      at: [end, input.mean[last]!],
    });
  }
  if (truth !== null) {
    series.push({
      text: "truth",
      sample: { color: theme.hues.vermilion, dash: truthDash, marker: null },
      at: [end, truth],
    });
  }
  if (beyond > 0) {
    series.push({
      text: beyond === 1 ? "1 reading beyond the scale" : `${beyond} readings beyond the scale`,
      sample: { color: theme.ink, dash: null, marker: "triangle" },
      at: [end, low],
    });
  }
  return frame(
    {
      heading: "Single readings and their running mean",
      description: describe(input, beyond, last),
      x: { kind: "linear", domain: padLinear(span, 0.01), quantity: "Time", unit: "s" },
      y: { kind: "linear", domain: padLinear([low, high], 0.06), quantity, unit },
      series,
      draw: (plot) => draw(input, plot, low, high),
    },
    options,
  );
}

function draw(input: ReadingsChartInput, plot: Plot, low: number, high: number): SvgNode[] {
  const { reading, mean, halfWidth, truth } = input;
  const { x, y, box, theme } = plot;
  const px = Float64Array.from(input.time, (t) => x.position(t));
  const shown = reading.map((value) => (value < low || value > high ? NaN : value));
  const nodes = [
    ...band(px, mean, halfWidth, plot),
    svgNode("path", {
      d: dotsPath(px, shown, y.position),
      stroke: theme.hues.green,
      "stroke-width": isCrowded(shown) ? 1.5 : shown.length > 100 ? 4 : 5,
      "stroke-opacity": isCrowded(shown) ? crowdOpacity : undefined,
      "stroke-linecap": "round",
    }),
  ];
  if (truth !== null) {
    nodes.push(
      svgNode("path", {
        d: segmentPath(box.left, y.position(truth), box.right, y.position(truth)),
        stroke: theme.hues.vermilion,
        "stroke-width": 1.75,
        "stroke-dasharray": truthDash,
      }),
    );
  }
  nodes.push(
    svgNode("path", {
      d: decimatedLine(px, mean, y.position),
      stroke: theme.hues.blue,
      "stroke-width": 2,
    }),
  );
  // One triangle for all that lie beyond the same stretch of the edge.
  const edges = new Map<string, [number, number]>();
  for (let i = 0; i < reading.length; i++) {
    const value = reading[i]!;
    if (value < low || value > high) {
      const edge = value > high ? box.top + 2 : box.bottom - 5;
      edges.set(`${Math.floor(px[i]! / 4)} ${edge}`, [px[i]!, edge]);
    }
  }
  if (edges.size > 0) {
    nodes.push(markersNode("triangle", [...edges.values()], 3.2, theme.ink));
  }
  return nodes;
}

/** Whether there are more readings than dots could show. */
const isCrowded = (reading: Float64Array): boolean => reading.length > 1000;

/** Single readings as dots; where they crowd, a stroke from the lowest to the highest of a pixel column. */
function dotsPath(
  px: Float64Array,
  shown: Float64Array,
  toPixel: (value: number) => number,
): string {
  const points = decimate(px, shown).filter((i) => i >= 0);
  const hasStrokes = isCrowded(shown);
  let d = "";
  for (let k = 0; k < points.length; k++) {
    const i = points[k]!;
    const next = points[k + 1];
    d += `M${roundCoordinate(px[i]!)} ${roundCoordinate(toPixel(shown[i]!))}`;
    if (hasStrokes && next !== undefined && Math.floor(px[next]!) === Math.floor(px[i]!)) {
      d += `V${roundCoordinate(toPixel(shown[next]!))}`;
      k++;
    } else {
      // A stroke of no length with round ends is a dot: the shortest way to say a point.
      d += "h0";
    }
  }
  return d;
}

/** The interval about the mean as one closed shape. */
function band(
  px: Float64Array,
  mean: Float64Array,
  halfWidth: Float64Array,
  plot: Plot,
): SvgNode[] {
  const { y, box, theme } = plot;
  const upper = mean.map((value, i) => value + halfWidth[i]!);
  const points = decimate(px, upper).filter((i) => i >= 0);
  if (points.length < 2) {
    return [];
  }
  // The first intervals are far wider than the picture: kept near it, so that paths stay drawable.
  const near = (value: number) =>
    Math.max(box.top - 50, Math.min(box.bottom + 50, y.position(value)));
  const count = points.length;
  const at = (k: number) => (k < count ? points[k]! : points[2 * count - 1 - k]!);
  const d = linePath(
    2 * count,
    (k) => px[at(k)]!,
    (k) => near(mean[at(k)]! + (k < count ? 1 : -1) * halfWidth[at(k)]!),
  );
  return [svgNode("path", { d: `${d}Z`, fill: theme.hues.blue, "fill-opacity": bandOpacity })];
}

function describe(input: ReadingsChartInput, beyond: number, last: number): string {
  const { reading, mean, halfWidth, truth, unit = "1", quantity = "Rate" } = input;
  const text = (value: number) => quantityText(value, unit, 3);
  const extent = finiteExtent(reading)!;
  const count = reading.filter(Number.isFinite).length;
  const parts = [
    `${quantity} in time: ${count} single readings between ${text(extent[0])} and ${text(extent[1])}.`,
  ];
  if (last >= 0) {
    const width = halfWidth[last]!;
    const interval = Number.isFinite(width) ? ` within ${text(width)} at 95 %` : "";
    parts.push(`Their mean comes to ${text(mean[last]!)}${interval}.`);
  }
  if (truth !== null) {
    parts.push(`The truth is ${text(truth)}.`);
  }
  if (beyond > 0) {
    parts.push(`${beyond} of the readings lie beyond the scale.`);
  }
  return parts.join(" ");
}
