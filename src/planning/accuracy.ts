import { timeUnits } from "./time-units.ts";

const fractions: ReadonlyMap<string, number> = new Map([
  ["", 1],
  ["%", 1e-2],
  ["ppm", 1e-6],
  ["ppb", 1e-9],
  ["ppt", 1e-12],
]);

/**
 * Reads an accuracy of a rate, as a fraction or as time gained or lost in a stretch of time.
 *
 *   `1e-9`, `0.5ppm`, `20 ppb`, `2 ms/day`, `1 s/month`, `10 s/year`
 *
 * 1 s/day = 1.157407e-5; 1 s/year = 3.168809e-8 (year of 365.25 days).
 *
 * @param text - the accuracy as written
 * @returns the accuracy as a fraction of the rate; dimensionless, > 0
 * @throws RangeError if the text is no accuracy, or not above zero
 */
export function parseAccuracy(text: string): number {
  const complain = (): never => {
    throw new RangeError(
      `parseAccuracy: an accuracy must be a fraction or time in a stretch of time, like 1e-9, 0.5ppm, "2 ms/day" or "10 s/year", got ${JSON.stringify(text)}`,
    );
  };
  const match = /^\s*((?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*([^\s/]*)\s*(?:\/\s*(\S+)\s*)?$/i.exec(
    text,
  );
  if (!match) return complain();
  const [, digits = "", unit = "", per] = match;
  const accuracy =
    per === undefined
      ? Number(digits) * (fractions.get(unit) ?? complain())
      : (Number(digits) * (timeUnits.get(unit) ?? complain())) / (timeUnits.get(per) ?? complain());
  return accuracy > 0 && Number.isFinite(accuracy) ? accuracy : complain();
}
