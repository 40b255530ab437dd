/**
 * Median of the values that are not NaN.
 *
 * @param values - any number of values, any unit; NaN = left out
 * @returns the median, of the unit of the values; NaN if none is left
 *
 * Source: definition; of an even number, the mean of the two in the middle. Exact case: 1, 2, 4 gives 2.
 */
export function median(values: Float64Array): number {
  const kept = present(values);
  const n = kept.length;
  if (n === 0) return Number.NaN;
  const upper = select(kept, n >> 1);
  if (n % 2 === 1) return upper;
  // What stands before the place of the upper one is not above it: the other is the greatest there.
  let lower = kept[0]!;
  for (let i = 1; i < n >> 1; i++) if (kept[i]! > lower) lower = kept[i]!;
  return (lower + upper) / 2;
}

/**
 * The values that are not NaN, in their order.
 *
 * @param values - any number of values
 * @returns a copy of those that are there
 */
export function present(values: Float64Array): Float64Array {
  const kept = new Float64Array(values.length);
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (!Number.isNaN(value)) kept[count++] = value;
  }
  return kept.subarray(0, count);
}

/**
 * The value that would stand at a place if the values were sorted.
 *
 * @param values - none of them NaN; put into another order
 * @param place - 0 <= place < values.length
 * @returns that value; no smaller one stands after it any more, no greater one before it
 *
 * Source: Hoare, Algorithm 65: find, Comm. ACM 4, 321 (1961). Exact case: of 3, 1, 2 the value at place 0 is 1.
 */
export function select(values: Float64Array, place: number): number {
  let low = 0;
  let high = values.length - 1;
  while (low < high) {
    const pivot = values[(low + high) >> 1]!;
    let i = low;
    let j = high;
    while (i <= j) {
      while (values[i]! < pivot) i++;
      while (values[j]! > pivot) j--;
      if (i > j) break;
      const v = values[i]!;
      values[i++] = values[j]!;
      values[j--] = v;
    }
    if (place <= j) high = j;
    else if (place >= i) low = i;
    else break;
  }
  return values[place]!;
}

/**
 * Robust standard deviation: median distance from a centre over 0.6745.
 *
 * @param values - any number of values, any unit; NaN = left out
 * @param centre - of the same unit
 * @returns the deviation, of the same unit; NaN if no value is left
 *
 * Source: Riley, NIST SP 1065, outlier removal (from memory). Exact case: equal to σ for normal values.
 */
export function robustDeviation(values: Float64Array, centre: number): number {
  const distance = new Float64Array(values.length);
  for (let i = 0; i < values.length; i++) distance[i] = Math.abs(values[i]! - centre);
  return median(distance) / 0.6745;
}
