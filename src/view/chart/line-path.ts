import { line } from "d3-shape";
import { roundCoordinate } from "./svg-node.ts";

/**
 * The path of a broken line through points; a point that is not finite leaves a gap.
 *
 * @param count - number of points; integer >= 0
 * @param x - pixel of point i
 * @param y - pixel of point i
 * @returns path data with two decimals; empty without points
 */
export function linePath(
  count: number,
  x: (i: number) => number,
  y: (i: number) => number,
): string {
  const points = Array.from({ length: count }, (_, i): [number, number] => [x(i), y(i)]);
  const through = line()
    .defined(([px, py]) => Number.isFinite(px) && Number.isFinite(py))
    .digits(2);
  return through(points) ?? "";
}

/**
 * The path of a straight stretch.
 *
 * @param x1 - start; px
 * @param y1 - start; px
 * @param x2 - end; px
 * @param y2 - end; px
 * @returns path data with two decimals
 */
export function segmentPath(x1: number, y1: number, x2: number, y2: number): string {
  const [a, b, c, d] = [x1, y1, x2, y2].map(roundCoordinate);
  return `M${a} ${b}L${c} ${d}`;
}
