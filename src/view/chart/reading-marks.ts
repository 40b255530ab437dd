import { decimate } from "./decimate.ts";
import { decimatedLine } from "./decimated-line.ts";
import type { Domain } from "./domain.ts";
import { markersNode } from "./legend/key-sample.ts";
import { linePath, segmentPath } from "./line-path.ts";
import type { Plot } from "./panel.ts";
import type { ReadingsChartInput } from "./readings-chart-input.ts";
import { roundCoordinate, type SvgNode, stroked, svgNode } from "./svg-node.ts";

/** Dashes of the line of the truth. */
export const truthDash = "9 4";

/** How much of the paper a band hides. */
export const bandOpacity = 0.25;

/** Strokes of crowded readings let the mean and its band show through. */
export const crowdOpacity = 0.4;

/**
 * Whether there are more readings than dots could show.
 *
 * @param reading - the readings
 * @returns true above a thousand
 */
export function isCrowded(reading: Float64Array): boolean {
  return reading.length > 1000;
}

/**
 * Draws single readings: dots, or strokes where they crowd, and triangles for what lies beyond the scale.
 *
 * @param input - the readings
 * @param shown - lowest and highest value that is drawn in its place
 * @param plot - where
 * @returns elements
 */
export function drawReadings(
  input: ReadingsChartInput,
  [low, high]: Domain,
  plot: Plot,
): SvgNode[] {
  const { reading } = input;
  const { x, y, box, theme } = plot;
  const px = Float64Array.from(input.time, (t) => x.position(t));
  const inside = reading.map((value) => (value < low || value > high ? NaN : value));
  const nodes = [
    stroked(
      dotsPath(px, inside, y.position),
      theme.hues.green,
      isCrowded(reading) ? 1.5 : reading.length > 100 ? 4 : 5,
      {
        "stroke-opacity": isCrowded(reading) ? crowdOpacity : undefined,
        "stroke-linecap": "round",
      },
    ),
  ];
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

/** Single readings as dots; where they crowd, a stroke from the lowest to the highest of a pixel column. */
function dotsPath(
  px: Float64Array,
  inside: Float64Array,
  toPixel: (value: number) => number,
): string {
  const points = decimate(px, inside).filter((i) => i >= 0);
  let d = "";
  for (let k = 0; k < points.length; k++) {
    const i = points[k]!;
    const next = points[k + 1];
    d += `M${roundCoordinate(px[i]!)} ${roundCoordinate(toPixel(inside[i]!))}`;
    const isColumn = next !== undefined && Math.floor(px[next]!) === Math.floor(px[i]!);
    if (isColumn && isCrowded(inside)) {
      d += `V${roundCoordinate(toPixel(inside[next]!))}`;
      k++;
    } else {
      // A stroke of no length with round ends is a dot: the shortest way to say a point.
      d += "h0";
    }
  }
  return d;
}

/**
 * Draws the running mean upon its interval, and the truth.
 *
 * @param input - mean, half-width and truth
 * @param plot - where
 * @returns elements
 */
export function drawMean(input: ReadingsChartInput, plot: Plot): SvgNode[] {
  const { mean, halfWidth, truth } = input;
  const { x, y, box, theme } = plot;
  const px = Float64Array.from(input.time, (t) => x.position(t));
  const nodes = drawBand(px, mean, halfWidth, plot);
  if (truth !== null) {
    nodes.push(
      stroked(
        segmentPath(box.left, y.position(truth), box.right, y.position(truth)),
        theme.hues.vermilion,
        1.75,
        { "stroke-dasharray": truthDash },
      ),
    );
  }
  nodes.push(
    stroked(
      decimatedLine(px, mean, (value) => near(y.position(value), plot)),
      theme.hues.blue,
      2,
    ),
  );
  return nodes;
}

/** The interval about the mean as one closed shape. */
function drawBand(
  px: Float64Array,
  mean: Float64Array,
  halfWidth: Float64Array,
  plot: Plot,
): SvgNode[] {
  const upper = mean.map((value, i) => value + halfWidth[i]!);
  const points = decimate(px, upper).filter((i) => i >= 0);
  if (points.length < 2) {
    return [];
  }
  const count = points.length;
  const at = (k: number) => (k < count ? points[k]! : points[2 * count - 1 - k]!);
  const d = linePath(
    2 * count,
    (k) => px[at(k)]!,
    (k) => near(plot.y.position(mean[at(k)]! + (k < count ? 1 : -1) * halfWidth[at(k)]!), plot),
  );
  return [svgNode("path", { d: `${d}Z`, fill: plot.theme.hues.blue, "fill-opacity": bandOpacity })];
}

/** Intervals far wider than the picture are kept near it, so that paths stay drawable; they are clipped. */
const near = (pixel: number, { box }: Plot): number =>
  Math.max(box.top - 1000, Math.min(box.bottom + 1000, pixel));
