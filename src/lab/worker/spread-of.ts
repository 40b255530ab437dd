import type { RecordColumns } from "../../chain/index.ts";
import { chiSquareQuantile } from "../../numeric/index.ts";
import type { Scenario } from "../../scenario/index.ts";
import type { Spread } from "../protocol.ts";
import { readingRates } from "./run-lesson.ts";

/**
 * Scatter of readings about their steady course: standard deviation of reading less what offset, setting and
 * temperature make of it, n − 1 in the divisor. The oscillator's own wandering is part of it.
 *
 * What shifts all readings alike (the counter's time base) is none. The interval is that of independent Gaussian
 * readings; neighbours that share an edge make it a little too narrow.
 *
 * @param scenario - the scenario of the run
 * @param record - its readings; 2 or more
 * @returns spread and the ends of its 95 % interval; dimensionless
 *
 * Source: JCGM 100:2008 (GUM), 4.2.2; interval by chi-square, NIST/SEMATECH e-Handbook 1.3.5.8.
 */
export function spreadOf(scenario: Scenario, record: RecordColumns): Spread {
  const { rate, steady } = readingRates(scenario, record);
  const errors = rate.map((value, i) => value - steady[i]!).filter(Number.isFinite);
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
