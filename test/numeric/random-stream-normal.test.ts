import { describe, expect, it } from "vitest";
import { normalCdf, normalQuantile, RandomStream, zigguratTail } from "../../src/numeric/index.ts";
import { kolmogorov, mean } from "./deviates.ts";

const n = 2_000_000;
const z = new Float64Array(n);
new RandomStream("normal deviates", "test").fillNormal(z, 0, n);

const meanOf = (f: (x: number) => number) => {
  let sum = 0;
  for (let i = 0; i < n; i++) {
    sum += f(z[i]!);
  }
  return sum / n;
};

/** Fraction of a sample beyond a limit, and its binomial standard deviation. */
const beyond = (limit: number) => {
  const expected = 2 * normalCdf(-limit);
  return {
    observed: meanOf((x) => (Math.abs(x) > limit ? 1 : 0)),
    expected,
    sigma: Math.sqrt((expected * (1 - expected)) / n),
  };
};

/** P(√n·D > 2.23) = 2·exp(−2·2.23²) = 1e-4 (Kolmogorov's limit law). */
const kolmogorovLimit = 2.23;

describe("RandomStream.normal, the law of its deviates", () => {
  it("has the Gaussian's first eight moments within 5 σ of their estimators", () => {
    // E z^k = (k − 1)!! for even k; the variance of the mean of z^k is (E z^2k − (E z^k)²)/n.
    const doubleFactorial = (k: number): number => (k <= 1 ? 1 : k * doubleFactorial(k - 2));
    for (let k = 1; k <= 8; k++) {
      const expected = k % 2 === 0 ? doubleFactorial(k - 1) : 0;
      const sigma = Math.sqrt((doubleFactorial(2 * k - 1) - expected ** 2) / n);
      expect(Math.abs(meanOf((x) => x ** k) - expected), `moment ${k}`).toBeLessThan(5 * sigma);
    }
  });

  it("fills 1000 bins of equal probability: chi-square within 5 σ of its 999 degrees of freedom", () => {
    const bins = 1000;
    const edges = Float64Array.from({ length: bins - 1 }, (_, i) => normalQuantile((i + 1) / bins));
    const counts = new Float64Array(bins);
    for (let i = 0; i < n; i++) {
      let low = 0;
      let high = bins - 1;
      while (low < high) {
        const middle = (low + high) >> 1;
        if (z[i]! < edges[middle]!) {
          high = middle;
        } else {
          low = middle + 1;
        }
      }
      counts[low]! += 1;
    }
    const expected = n / bins;
    const chiSquare = counts.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
    expect(Math.abs(chiSquare - (bins - 1))).toBeLessThan(5 * Math.sqrt(2 * (bins - 1)));
  });

  it("has Kolmogorov's distance to Φ below the limit passed once in 10 000", () => {
    expect(kolmogorov(z.slice(0, 300_000), normalCdf)).toBeLessThan(kolmogorovLimit);
  });

  it("has as many deviates beyond 1, 2, 3, 4, 4.5 and the start of the tail as the law says, within 5 σ", () => {
    for (const limit of [1, 2, 3, zigguratTail, 4, 4.5]) {
      const { observed, expected, sigma } = beyond(limit);
      expect(Math.abs(observed - expected), `beyond ${limit}`).toBeLessThan(5 * sigma);
    }
  });

  it("follows the Gaussian's conditional law beyond the start of the tail, on both sides", () => {
    const stream = new RandomStream("tail", "test");
    const buffer = new Float64Array(100_000);
    const found: number[] = [];
    for (let block = 0; block < 300; block++) {
      stream.fillNormal(buffer, 0, buffer.length);
      for (let i = 0; i < buffer.length; i++) {
        if (Math.abs(buffer[i]!) > zigguratTail) {
          found.push(buffer[i]!);
        }
      }
    }
    // About 7700 of 30 million.
    const tail = Float64Array.from(found);
    const r = zigguratTail;
    const conditional = (x: number) => normalCdf(-Math.abs(x)) / normalCdf(-r);
    expect(kolmogorov(tail, conditional)).toBeLessThan(kolmogorovLimit);
    // E(z | z > r) is the inverse of the Mills ratio, m; the variance is 1 + r·m − m². Within 5 σ; the
    // exponential the tail is drawn from, without its rejection, is 6 σ away.
    const m = Math.exp(-0.5 * r * r) / Math.sqrt(2 * Math.PI) / normalCdf(-r);
    const meanSize = mean(tail.map(Math.abs));
    expect(Math.abs(meanSize - m)).toBeLessThan(5 * Math.sqrt((1 + r * m - m * m) / tail.length));
    const right = tail.filter((x) => x > 0).length;
    expect(Math.abs(right - tail.length / 2)).toBeLessThan(5 * Math.sqrt(tail.length / 4));
  });

  it("has no correlation with itself at lags 1 to 10, nor of its squares: within 5/√n", () => {
    for (let lag = 1; lag <= 10; lag++) {
      let values = 0;
      let squares = 0;
      for (let i = lag; i < n; i++) {
        const x = z[i]!;
        const y = z[i - lag]!;
        values += x * y;
        squares += (x * x - 1) * (y * y - 1);
      }
      expect(Math.abs(values / n)).toBeLessThan(5 / Math.sqrt(n));
      expect(Math.abs(squares / (2 * n))).toBeLessThan(5 / Math.sqrt(n));
    }
  });
});
