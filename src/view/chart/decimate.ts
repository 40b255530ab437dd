/**
 * Picks what is seen of a long record: the lowest and the highest point of every pixel column.
 *
 * A line through these covers the same pixels as a line through all points, but for its slant inside one
 * column. NaN is a gap: the line breaks there, even where the gap is narrower than a pixel.
 *
 * @param x - horizontal place of each point, ascending; px
 * @param y - value of each point; any unit, NaN for a gap
 * @returns indices of at most two points a pixel column, ascending, with -1 where the line breaks
 * @throws RangeError if lengths differ
 *
 * Exact case: points fewer than one a column all stay.
 */
export function decimate(x: ArrayLike<number>, y: ArrayLike<number>): Int32Array {
  const count = y.length;
  if (x.length !== count) {
    throw new RangeError(`decimate: x and y must be of equal length, got ${x.length} and ${count}`);
  }
  const kept: number[] = [];
  let column = NaN;
  let low = -1;
  let high = -1;
  const flush = () => {
    if (low >= 0) kept.push(Math.min(low, high));
    if (low !== high) kept.push(Math.max(low, high));
  };
  for (let i = 0; i < count; i++) {
    const value = y[i]!;
    if (Number.isNaN(value)) continue;
    if (Math.floor(x[i]!) !== column) {
      flush();
      column = Math.floor(x[i]!);
      low = i;
      high = i;
    } else if (value < y[low]!) {
      low = i;
    } else if (value > y[high]!) {
      high = i;
    }
  }
  flush();
  return withBreaks(kept, y);
}

/** Puts -1 between neighbours that have a gap between them. */
function withBreaks(kept: readonly number[], y: ArrayLike<number>): Int32Array {
  const broken: number[] = [];
  for (let k = 0; k < kept.length; k++) {
    if (k > 0 && hasGap(y, kept[k - 1]!, kept[k]!)) broken.push(-1);
    broken.push(kept[k]!);
  }
  return Int32Array.from(broken);
}

function hasGap(y: ArrayLike<number>, from: number, to: number): boolean {
  for (let i = from; i < to; i++) {
    if (Number.isNaN(y[i]!)) return true;
  }
  return false;
}
