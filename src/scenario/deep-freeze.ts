/**
 * Freezes an object and everything in it.
 *
 * @param value - a tree of plain objects and lists
 * @returns the same value
 */
export function deepFreeze<Value>(value: Value): Value {
  if (typeof value === "object" && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value);
    for (const inner of Object.values(value)) deepFreeze(inner);
  }
  return value;
}
