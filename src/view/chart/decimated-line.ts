import { decimate } from "./decimate.ts";
import { linePath } from "./line-path.ts";

/**
 * The path of a long record: the line through what `decimate` leaves of it, broken where it has gaps.
 *
 * @param px - horizontal place of each point, ascending; px
 * @param values - value of each point; NaN for a gap
 * @param toPixel - from a value to its vertical place; px
 * @returns path data
 */
export function decimatedLine(
  px: Float64Array,
  values: Float64Array,
  toPixel: (value: number) => number,
): string {
  const points = decimate(px, values);
  const at = (k: number, of: (i: number) => number) => (points[k]! < 0 ? NaN : of(points[k]!));
  return linePath(
    points.length,
    (k) => at(k, (i) => px[i]!),
    (k) => at(k, (i) => toPixel(values[i]!)),
  );
}
