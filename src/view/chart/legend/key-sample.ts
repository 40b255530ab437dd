import { segmentPath } from "../line-path.ts";
import { type MarkerShape, markerPath } from "../marker.ts";
import { type SvgNode, stroked, svgNode } from "../svg-node.ts";

/** How a series is drawn, so that its name can carry a sample of it. */
export interface KeySample {
  /** #rrggbb */
  readonly color: string;
  /** Dashes of its line (empty: solid), or null where it has no line. */
  readonly dash: string | null;
  readonly width?: number;
  readonly marker: MarkerShape | null;
  /** Slope at which the sample of a guide line is drawn, so that it is not taken for data. */
  readonly slope?: number;
  /** Fill of a marker drawn as a ring; #rrggbb. */
  readonly open?: string;
  /** Fill of a band behind the line, or of a shaded span. */
  readonly band?: { readonly fill: string; readonly opacity: number };
}

/** Width of a sample; px. */
export const sampleWidth = 24;

/**
 * A short piece of a series: line, band and marker as in the plot.
 *
 * @param sample - how the series is drawn
 * @param x - left end; px
 * @param y - middle; px
 * @returns its elements
 */
export function keySample(sample: KeySample, x: number, y: number): SvgNode[] {
  const nodes: SvgNode[] = [];
  if (sample.band) {
    nodes.push(
      svgNode("rect", {
        x,
        y: y - 5,
        width: sampleWidth,
        height: 10,
        fill: sample.band.fill,
        "fill-opacity": sample.band.opacity,
      }),
    );
  }
  if (sample.dash !== null) {
    const slope = sample.slope ?? 0;
    const run = sample.slope === undefined ? sampleWidth / 2 : 8 / Math.hypot(1, slope);
    const middle = x + sampleWidth / 2;
    nodes.push(
      stroked(
        segmentPath(middle - run, y + run * slope, middle + run, y - run * slope),
        sample.color,
        sample.width ?? 1.75,
        { "stroke-dasharray": sample.dash },
      ),
    );
  }
  if (sample.marker !== null) {
    const centre = [[x + sampleWidth / 2, y]] as const;
    nodes.push(
      sample.open === undefined
        ? markersNode(sample.marker, centre, 3.2, sample.color)
        : openMarkersNode(sample.marker, centre, 4.2, sample.color, sample.open),
    );
  }
  return nodes;
}

/**
 * All markers of a series as one element.
 *
 * @param shape - their shape
 * @param points - centres; px
 * @param r - half the width of a marker; px
 * @param color - #rrggbb
 * @returns one path
 */
export function markersNode(
  shape: MarkerShape,
  points: readonly (readonly [number, number])[],
  r: number,
  color: string,
): SvgNode {
  const d = points.map(([x, y]) => markerPath(shape, x, y, r)).join("");
  return shape === "cross"
    ? stroked(d, color, 1.75, { fill: "none" })
    : svgNode("path", { d, fill: color, stroke: "none" });
}

/**
 * All markers of a series as rings.
 *
 * @param shape - their shape
 * @param points - centres; px
 * @param r - half the width of a marker; px
 * @param color - #rrggbb
 * @param fill - what they are filled with; #rrggbb
 * @returns one path
 */
export function openMarkersNode(
  shape: MarkerShape,
  points: readonly (readonly [number, number])[],
  r: number,
  color: string,
  fill: string,
): SvgNode {
  const d = points.map(([x, y]) => markerPath(shape, x, y, r)).join("");
  return stroked(d, color, 1.75, { fill: fill });
}
