import { describe, expect, it } from "vitest";
import { RandomStream } from "../../src/numeric/index.ts";
import { edgeSelection } from "../../src/stages/counter/index.ts";

/** The same by drawing every edge that might be taken, 20 000 rounds of waits. */
function drawn(waits: number[], period: number, sigma: number, seed: string) {
  const stream = new RandomStream(seed, "edges");
  const sums = waits.map(() => ({ mean: 0, square: 0, product: 0, edges: 0 }));
  const rounds = 20000;
  const before = waits.map(() => 0);
  let meanSquare = 0;
  let edge = 0;
  let error = 0;
  for (let round = -50; round < rounds; round++) {
    for (let w = 0; w < waits.length; w++) {
      const target = edge * period + error + waits[w]!;
      let next = Math.max(edge + 1, Math.ceil((target - 9 * sigma) / period));
      let late = sigma * stream.normal();
      while (next * period + late < target) {
        next++;
        late = sigma * stream.normal();
      }
      if (round >= 0) {
        const sum = sums[w]!;
        sum.mean += late / rounds;
        sum.square += (late * late) / rounds;
        sum.product += (late * error) / rounds;
        before[w] = before[w]! + error / rounds;
        sum.edges += (next - edge) / rounds;
        if (w === 0) meanSquare += ((late - error) / ((next - edge) * period)) ** 2 / rounds;
      }
      edge = next;
      error = late;
    }
  }
  return sums.map(({ mean, square, product, edges }, w) => ({
    meanSquare,
    mean,
    variance: square - mean * mean,
    covariance: product - mean * before[w]!,
    edges,
  }));
}

describe("edgeSelection", () => {
  it("leaves a wait far from whole periods alone", () => {
    const clear = edgeSelection([50], 0.9973, 1e-3);
    expect(clear.means).toEqual([0]);
    expect(clear.variances).toEqual([1e-6]);
    expect(clear.edges).toEqual([51]);
  });

  // Errors of the drawn values: σ/√20000 = 0.7 % of σ for means, 1 % for variances; 5 of them are allowed.
  it.each([
    { waits: [10], period: 1, sigma: 0.01 },
    { waits: [10.005], period: 1, sigma: 0.01 },
    { waits: [1], period: 1, sigma: 0.01 },
    { waits: [2, 0.5], period: 1, sigma: 0.02 },
    { waits: [100, 20], period: 2, sigma: 0.001 },
    { waits: [0, 3], period: 1, sigma: 0.02 },
    { waits: [7], period: 2, sigma: 1 },
    { waits: [50.03], period: 0.1, sigma: 1 },
  ])("agrees with edges drawn one by one: $waits, $period, $sigma", ({ waits, period, sigma }) => {
    const result = edgeSelection(waits, period, sigma);
    drawn(waits, period, sigma, "late-edges").forEach((expected, w) => {
      const tolerance = 5 / Math.sqrt(20000);
      expect(Math.abs(result.means[w]! - expected.mean) / sigma).toBeLessThan(tolerance);
      const square = sigma * sigma;
      expect(Math.abs(result.variances[w]! - expected.variance) / square).toBeLessThan(
        1.5 * tolerance,
      );
      expect(Math.abs(result.covariances[w]! - expected.covariance) / square).toBeLessThan(
        1.5 * tolerance,
      );
      expect(Math.abs(result.meanSquare / expected.meanSquare - 1)).toBeLessThan(1.5 * tolerance);
      expect(Math.abs(result.edges[w]! - expected.edges)).toBeLessThan(
        tolerance * Math.max(1, sigma / period),
      );
    });
  });

  it("takes edges without error as they come, that on the very end of a wait among them", () => {
    const { edges, means, variances } = edgeSelection([1, 2.5], 1, 0);
    expect(edges).toEqual([1, 3]);
    expect([...means, ...variances]).toEqual([0, 0, 0, 0]);
  });
});
