import { type KeySample, markersNode, openMarkersNode } from "./legend/key-sample.ts";
import { linePath, segmentPath } from "./line-path.ts";
import { colorOf, type SeriesStyle } from "./palette.ts";
import type { Plot } from "./panel.ts";
import { type SvgNode, stroked } from "./svg-node.ts";
import type { Theme } from "./theme.ts";

/** Points of a curve on two logarithmic axes; a value that is NaN or not above zero leaves a gap. */
export interface Curve {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Ends of the confidence bars; NaN for none. */
  readonly low?: Float64Array;
  readonly high?: Float64Array;
}

/** How a curve is drawn. */
export interface CurveLook {
  readonly style: SeriesStyle;
  readonly hasLine: boolean;
  readonly hasMarkers: boolean;
  /** Draws markers as rings, larger than others, for points that lie upon a line. */
  readonly isOpen?: boolean;
  readonly width?: number;
}

/** Markers closer than this are left out, first and last excepted; px. */
const markerSpacing = 14;

/**
 * Draws a curve on logarithmic axes: confidence bars, line, markers.
 *
 * @param curve - its points, x ascending
 * @param look - how
 * @param plot - where
 * @returns elements
 */
export function drawCurve(curve: Curve, look: CurveLook, plot: Plot): SvgNode[] {
  const color = colorOf(look.style.color, plot.theme);
  const at = (value: number) => (value > 0 && value < Infinity ? value : NaN);
  const px = Array.from(curve.x, (value) => plot.x.position(at(value)));
  const py = Array.from(curve.y, (value) => plot.y.position(at(value)));
  const nodes: SvgNode[] = [];
  if (curve.low && curve.high) {
    const bars = px.map((x, i) => {
      const [low, high] = [at(curve.low![i]!), at(curve.high![i]!)];
      const isDrawn = Number.isFinite(x) && Number.isFinite(low) && Number.isFinite(high);
      return isDrawn ? barPath(x, plot.y.position(low), plot.y.position(high)) : "";
    });
    const d = bars.join("");
    if (d !== "") {
      nodes.push(stroked(d, color, 1.5));
    }
  }
  if (look.hasLine) {
    nodes.push(
      stroked(
        linePath(
          px.length,
          (i) => px[i]!,
          (i) => py[i]!,
        ),
        color,
        look.width ?? 1.75,
        { "stroke-dasharray": look.style.dash, "stroke-linejoin": "round" },
      ),
    );
  }
  if (look.hasMarkers) {
    const points = thinned(px, py);
    nodes.push(
      look.isOpen
        ? openMarkersNode(look.style.marker, points, 4.2, color, plot.theme.paper)
        : markersNode(look.style.marker, points, 3.2, color),
    );
  }
  return nodes;
}

/** A confidence bar with its two ends. */
const barPath = (x: number, low: number, high: number): string =>
  segmentPath(x, low, x, high) +
  segmentPath(x - 3, low, x + 3, low) +
  segmentPath(x - 3, high, x + 3, high);

/** Points that are drawn with a marker: not so close that markers run into one another. */
function thinned(px: readonly number[], py: readonly number[]): [number, number][] {
  const points: [number, number][] = [];
  for (let i = 0; i < px.length; i++) {
    const last = points.at(-1);
    const isPoint = Number.isFinite(px[i]!) && Number.isFinite(py[i]!);
    if (isPoint && (!last || Math.hypot(px[i]! - last[0], py[i]! - last[1]) >= markerSpacing)) {
      points.push([px[i]!, py[i]!]);
    }
  }
  return points;
}

/**
 * The sample of a curve for its name.
 *
 * @param look - how the curve is drawn
 * @param theme - colours
 * @returns the sample
 */
export function curveSample(look: CurveLook, theme: Theme): KeySample {
  return {
    color: colorOf(look.style.color, theme),
    dash: look.hasLine ? look.style.dash : null,
    width: look.width ?? 1.75,
    marker: look.hasMarkers ? look.style.marker : null,
    ...(look.isOpen ? { open: theme.paper } : {}),
  };
}

/**
 * The last point of a curve that is drawn.
 *
 * @param curve - its points
 * @returns [x, y], or null where no point is drawn
 */
export function lastPoint(curve: Curve): readonly [number, number] | null {
  for (let i = curve.x.length - 1; i >= 0; i--) {
    const [x, y] = [curve.x[i]!, curve.y[i]!];
    if (x > 0 && y > 0 && x < Infinity && y < Infinity) {
      return [x, y];
    }
  }
  return null;
}
