import { chiSquareQuantile } from "../../numeric/index.ts";
import type { ReadingSeries, Spread } from "../protocol.ts";

/**
 * Spread of readings about their truth: standard deviation of reading less truth, n − 1 in the divisor.
 *
 * What shifts all readings alike (the counter's time base) is no part of it. The interval is that of
 * independent Gaussian readings; neighbours that share an edge make it a little too narrow.
 *
 * @param readings - readings with their truth; 2 or more
 * @returns spread and the ends of its 95 % interval; dimensionless
 *
 * Source: JCGM 100:2008 (GUM), 4.2.2; interval by chi-square, NIST/SEMATECH e-Handbook 1.3.5.8.
 */
export function spreadOf({ rate, truth }: ReadingSeries): Spread {
  const errors = rate.map((value, i) => value - truth[i]!).filter(Number.isFinite);
  const n = errors.length;
  if (n < 2) return { rms: Number.NaN, low: Number.NaN, high: Number.NaN, readings: n };
  const mean = errors.reduce((sum, value) => sum + value, 0) / n;
  const squares = errors.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return {
    rms: Math.sqrt(squares / (n - 1)),
    low: Math.sqrt(squares / chiSquareQuantile(0.975, n - 1)),
    high: Math.sqrt(squares / chiSquareQuantile(0.025, n - 1)),
    readings: n,
  };
}
