import { timeUnits } from "./time-units.ts";

/**
 * Reads a duration as people write it.
 *
 * A bare number is seconds; otherwise one or more numbers, each with its unit, added up:
 * `20000`, `6h`, `30d`, `6 h 40 min`, `1.5 weeks`.
 *
 * @param text - the duration as written
 * @returns the duration; s, > 0
 * @throws RangeError if the text is no duration, or not above zero
 */
export function parseDuration(text: string): number {
  const complain = (): never => {
    throw new RangeError(
      `parseDuration: a duration must be seconds or numbers with units, like 20000, 6h, "6 h 40 min" or 30d, got ${JSON.stringify(text)}`,
    );
  };
  const pattern = /\s*((?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*([a-zµμ]*)/iy;
  let total = 0;
  let parts = 0;
  while (pattern.lastIndex < text.trimEnd().length) {
    const match = pattern.exec(text);
    if (!match) return complain();
    const [, digits = "", unit = ""] = match;
    if (unit === "" && (parts > 0 || pattern.lastIndex < text.trimEnd().length)) return complain();
    total += Number(digits) * (unit === "" ? 1 : (timeUnits.get(unit) ?? complain()));
    parts++;
  }
  return total > 0 && Number.isFinite(total) ? total : complain();
}
