import { readFileSync } from "node:fs";
import { join } from "node:path";
import { type NoiseType, noiseTypes } from "../../../src/analysis/index.ts";

/** One check of test/reference/published.json, with the source it quotes. */
export interface PublishedCheck {
  readonly id: string;
  readonly quantity: string;
  readonly published?: number;
  readonly computed?: number;
  readonly source: string;
  readonly suggested_rel_tol?: number;
  readonly values?: readonly number[];
  readonly data?: unknown;
}

const published = JSON.parse(
  readFileSync(join(import.meta.dirname, "..", "..", "reference", "published.json"), "utf8"),
) as { checks: PublishedCheck[]; nbs_nine_point_frequency_data: number[] };

/** The checks whose id matches, with the number to reach: the printed one, else the independently computed one. */
export const checksLike = (pattern: RegExp): (PublishedCheck & { readonly expected: number })[] =>
  published.checks
    .filter((check) => pattern.test(check.id))
    .map((check) => ({ ...check, expected: (check.published ?? check.computed)! }));

/** Nine fractional frequencies, NBS Monograph 140, Annex 8.E (NIST SP 1065, Table 30). */
export const nbsRates = Float64Array.from(published.nbs_nine_point_frequency_data);

/** The 1000-point set of NIST SP 1065, section 12.4: n ← 16807·n mod (2³¹ − 1) from 1234567890, y = n/(2³¹ − 1). */
export const lcgRates = (() => {
  const y = new Float64Array(1000);
  let n = 1234567890;
  for (let i = 0; i < y.length; i++) {
    y[i] = n / 2147483647;
    n = (16807 * n) % 2147483647;
  }
  return y;
})();

/** Noise type of an exponent α of S_y(f) = h_α·f^α; integer from 2 down to −2 (IEEE Std 1139). */
export function typeOfExponent(alpha: number): NoiseType {
  return noiseTypes[2 - alpha]!;
}

/** Means of m values each, one after another. */
export const means = (y: Float64Array, m: number): Float64Array =>
  Float64Array.from({ length: Math.floor(y.length / m) }, (_, k) => {
    let sum = 0;
    for (let i = k * m; i < (k + 1) * m; i++) sum += y[i]!;
    return sum / m;
  });
