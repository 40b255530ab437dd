/** Where a column has a value: places of what is not NaN, ascending. */
export function presentPlaces(column: Float64Array): Int32Array {
  const places = new Int32Array(column.length);
  let count = 0;
  for (let i = 0; i < column.length; i++) {
    if (!Number.isNaN(column[i]!)) places[count++] = i;
  }
  return places.subarray(0, count);
}

/** The values of a column at some places, in their order. */
export function valuesAt(column: Float64Array, places: Int32Array): Float64Array {
  const values = new Float64Array(places.length);
  for (let i = 0; i < places.length; i++) values[i] = column[places[i]!]!;
  return values;
}
