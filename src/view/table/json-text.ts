/**
 * Plain data as the text of a JSON file: two spaces a level, a line feed at the end.
 *
 * @param value - strings, finite numbers, booleans, null, arrays and plain objects of these; keys keep their
 *   order, a key whose value is undefined is left out
 * @returns the text
 * @throws RangeError if a number is not finite: JSON cannot hold it, and null would hide it
 *
 * Source: RFC 8259, section 6 (Infinity and NaN are not permitted). Exact case: {a: 1} gives `{\n  "a": 1\n}\n`.
 */
export function jsonText(value: unknown): string {
  const text = JSON.stringify(
    value,
    (key, item: unknown) => {
      if (typeof item === "number" && !Number.isFinite(item)) {
        throw new RangeError(`jsonText: numbers must be finite, got ${item} at key "${key}"`);
      }
      return item;
    },
    2,
  );
  return `${text}\n`;
}
