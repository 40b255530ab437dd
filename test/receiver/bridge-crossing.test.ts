import { describe, expect, it } from "vitest";
import { RandomStream } from "../../src/numeric/index.ts";
import {
  amplitudeAt,
  BoundaryTree,
  BridgeCrossing,
  Deviates,
  fromClock,
  fromValue,
  RectifiedTone,
  toClock,
  toValue,
} from "../../src/stages/receiver/index.ts";
import { receiver, tone } from "./samples.ts";

/** No tone and no leak to speak of: the boundary is the constant θ. */
const still = new RectifiedTone({ ...receiver, leak: false }, tone);
const tree = new BoundaryTree(still, 1, 4);

/** Clocks of first crossings of bridges from θ − a to θ − b over the root; NaN for none. */
function crossings(a: number, b: number, noise: number, n: number) {
  const crossing = new BridgeCrossing(
    tree,
    4.5,
    noise,
    12,
    new Deviates(new RandomStream(`bridge ${a} ${b}`, "test")),
  );
  const span = tree.clockAt[1]!;
  const found = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    crossing.piece[amplitudeAt] = 0;
    crossing.piece[fromClock] = 0;
    crossing.piece[fromValue] = 4.5 - a;
    crossing.piece[toClock] = span;
    crossing.piece[toValue] = 4.5 - b;
    found[i] = crossing.find(1) ? crossing.piece[fromClock]! / span : Number.NaN;
  }
  return found;
}

describe("BridgeCrossing", () => {
  // The variance gathered, as 0.5 V rms with the leak there is usually would.
  const noise = 50;
  const s = noise * noise * tree.clockAt[1]!;

  it.each([
    [0.5, 0.5],
    [0.3, 1.2],
    [0.1, 0.4],
  ])("from %f σ to %f σ below a constant crosses with probability exp(−2ab/s)", (a, b) => {
    // Reflection principle, e.g. Karatzas and Shreve, Brownian Motion and Stochastic Calculus, 2.8.
    const n = 20000;
    const found = crossings(a * Math.sqrt(s), b * Math.sqrt(s), noise, n);
    const expected = Math.exp(-2 * a * b);
    const share = found.filter((x) => !Number.isNaN(x)).length / n;
    // 4.5 σ of a binomial share.
    expect(Math.abs(share - expected)).toBeLessThan(
      4.5 * Math.sqrt((expected * (1 - expected)) / n),
    );
  });

  it.each([
    [0.5, -0.8],
    [0.6, 0.4],
    [1, 0],
  ])(
    "from %f σ to %f σ crosses at times of the density ∝ a·f^(−3/2)(1 − f)^(−1/2)·exp(…)",
    (a, b) => {
      const n = 20000;
      const found = crossings(a * Math.sqrt(s), b * Math.sqrt(s), noise, n);
      const density = (f: number) =>
        f ** -1.5 * (1 - f) ** -0.5 * Math.exp((-a * a) / (2 * f) - (b * b) / (2 * (1 - f)));
      // Integrated in the angle with f = sin², where the ends are harmless.
      const shares = [0, 0, 0];
      const steps = 20000;
      for (let i = 0; i < steps; i++) {
        const angle = ((i + 0.5) * Math.PI) / (2 * steps);
        const f = Math.sin(angle) ** 2;
        const mass = density(f) * Math.sin(2 * angle);
        for (const [k, limit] of [0.2, 0.5, 1].entries()) if (f <= limit) shares[k]! += mass;
      }
      const crossed = found.filter((x) => !Number.isNaN(x));
      for (const [k, limit] of [0.2, 0.5].entries()) {
        const expected = shares[k]! / shares[2]!;
        const share = crossed.filter((x) => x <= limit).length / crossed.length;
        expect(Math.abs(share - expected)).toBeLessThan(
          4.5 * Math.sqrt((expected * (1 - expected)) / crossed.length),
        );
      }
    },
  );

  it("needs no luck where there is no noise to speak of: a straight path crosses at its place", () => {
    const found = crossings(1, -3, 1e-6, 10);
    for (const x of found) expect(x).toBeCloseTo(0.25, 6);
  });
});
