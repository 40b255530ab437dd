import { RandomStream } from "../../src/numeric/index.ts";

/** Draws of a variate from a stream of its own. */
export function draws(
  seed: string,
  count: number,
  draw: (stream: RandomStream) => number,
): Float64Array {
  const stream = new RandomStream(seed, "test");
  return Float64Array.from({ length: count }, () => draw(stream));
}

/** Mean of a sample. */
export const mean = (x: Float64Array) => x.reduce((sum, value) => sum + value, 0) / x.length;

/** Mean square distance of a sample from a known mean. */
export const variance = (x: Float64Array, about: number) =>
  x.reduce((sum, value) => sum + (value - about) ** 2, 0) / x.length;

/**
 * Pearson's chi-square of integer draws against a law, cells of expectation below 10 pooled at either
 * end, as (χ² − ν)/√(2ν): about a standard deviate if the law holds.
 */
export function chiSquareExcess(x: Float64Array, probability: (k: number) => number): number {
  const counts = new Map<number, number>();
  let low = Infinity;
  let high = -Infinity;
  for (const k of x) {
    counts.set(k, (counts.get(k) ?? 0) + 1);
    low = Math.min(low, k);
    high = Math.max(high, k);
  }
  let chiSquare = 0;
  let cells = 0;
  let seen = 0;
  let expectedSum = 0;
  let seenSum = 0;
  let expected = 0;
  for (let k = low; k <= high; k++) {
    seen += counts.get(k) ?? 0;
    expected += x.length * probability(k);
    if (expected >= 10) {
      chiSquare += (seen - expected) ** 2 / expected;
      cells += 1;
      seenSum += seen;
      expectedSum += expected;
      seen = 0;
      expected = 0;
    }
  }
  // What is left, at both ends, is one more cell.
  const restExpected = x.length - expectedSum;
  if (restExpected > 1) {
    chiSquare += (x.length - seenSum - restExpected) ** 2 / restExpected;
    cells += 1;
  }
  return (chiSquare - (cells - 1)) / Math.sqrt(2 * (cells - 1));
}

/** Kolmogorov's distance of draws from a law, times √n; P(> 2.23) = 1e-4. */
export function kolmogorov(x: Float64Array, cdf: (value: number) => number): number {
  const u = x.map(cdf).sort();
  let distance = 0;
  for (let i = 0; i < u.length; i++) {
    distance = Math.max(distance, u[i]! - i / u.length, (i + 1) / u.length - u[i]!);
  }
  return distance * Math.sqrt(u.length);
}
