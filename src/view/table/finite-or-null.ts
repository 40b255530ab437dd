/** A number as JSON can hold it: null where it is not finite. */
export function finiteOrNull(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}
