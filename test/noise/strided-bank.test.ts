import { describe, expect, it } from "vitest";
import type { Seen } from "../../src/noise/index.ts";
import { RelaxationBank, StridedBank } from "../../src/noise/index.ts";
import { RandomStream } from "../../src/numeric/index.ts";
import { covarianceOf, largestDifference } from "./impulses.ts";

/** Time constants against a step of 1 s, and variances (of a random walk: diffusions). */
const banks: [name: string, times: number[], variances: number[]][] = [
  ["a ladder", [1e-3, 0.03, 0.3, 1, 3, 30, 1e3, 1e8], [1, 1, 1, 1, 1, 1, 1, 1]],
  ["a ladder and a random walk", [0.1, 1, 10, Infinity], [1, 1, 1, 1e-3]],
  ["a random walk", [Infinity], [2]],
  ["one slow process", [1e5], [1]],
  ["one fast process", [0.01], [1]],
];

const make = (times: number[], variances: number[], stream: RandomStream) =>
  RelaxationBank.stationary(
    Float64Array.from(times),
    Float64Array.from(times, (time, k) => (time === Infinity ? 1 : 2 / time) * variances[k]!),
    stream,
  );

/** Readings by plain steps only: the law that strides are held to. */
function plainly(bank: RelaxationBank, seen: Seen, steps: number[], stream: RandomStream) {
  return steps.map((dt) => {
    const { factors, residualVariance } = bank.step(dt);
    const mean = bank.advance(factors, stream);
    return seen === "sum" ? bank.sum() : mean + Math.sqrt(residualVariance) * stream.normal();
  });
}

const repeat = (count: number, dt: number) => new Array<number>(count).fill(dt);

/** Sequences of steps that go through whole strides, and leave one after 1, 2, … readings. */
const sequences: [name: string, steps: number[]][] = [
  ["three strides in a row", repeat(16 + 3 * 17, 1)],
  ["a stride left after its first reading", [...repeat(17, 1), 0.4, 2]],
  ["a stride left within", [...repeat(25, 1), 7, ...repeat(3, 1)]],
  ["a stride left before its last reading", [...repeat(31, 1), 0.01, 1]],
  ["a stride left, and another begun", [...repeat(40, 1), 0.3, ...repeat(150, 1), 2]],
  ["strides of another step", [...repeat(35, 1), ...repeat(36, 0.2)]],
];

describe("StridedBank", () => {
  describe.each(["integral", "sum"] as Seen[])("of which the %s is seen", (seen) => {
    describe.each(banks)("made of %s", (_, times, variances) => {
      it.each(sequences)("has the law of plain steps: %s", (_, steps) => {
        // Both laws are exact; what is compared are all covariances of all readings and the values after them.
        const plain = covarianceOf((stream) => {
          const bank = make(times, variances, stream);
          return [...plainly(bank, seen, steps, stream), ...bank.after];
        });
        const strided = covarianceOf((stream) => {
          const bank = new StridedBank(make(times, variances, stream), seen, stream);
          const readings = steps.map((dt) => bank.advance(dt));
          return [...readings, ...bank.settle().after];
        });
        expect(largestDifference(plain.covariance, strided.covariance)).toBeLessThan(1e-10);
      });
    });
  });

  it("draws a deviate for each process once a stride", () => {
    const [, times, variances] = banks[0]!;
    const drawn = (length: number) =>
      covarianceOf((stream) => {
        const bank = new StridedBank(make(times, variances, stream), "integral", stream);
        return repeat(length, 1).map((dt) => bank.advance(dt));
      }).deviates;
    // 16 plain steps of n + 1 deviates; then n and one a reading every 16 steps.
    expect(drawn(48) - drawn(16)).toBe(2 * (times.length + 16));
  });

  it("goes by plain steps where strides would be left again and again", () => {
    const [, times, variances] = banks[0]!;
    const steps = Array.from({ length: 4000 }, (_, i) => (i % 20 === 19 ? 2 : 1));
    let drawn = 0;
    const normal = () => {
      drawn++;
      return 0;
    };
    const fillNormal = (_: Float64Array, from: number, to: number) => {
      drawn += to - from;
    };
    const stream = { normal, fillNormal } as unknown as RandomStream;
    const bank = new StridedBank(make(times, variances, stream), "integral", stream);
    for (const dt of steps) bank.advance(dt);
    // Left once, a stride takes 128 equal steps, and here are never more than 19.
    expect(drawn / steps.length / (times.length + 1)).toBeLessThan(1.01);
  });

  it("draws readings with the spectrum of flicker: variance and lagged covariance of sums", () => {
    const times = [0.1, 1, 10];
    const stream = new RandomStream("strided", "flicker");
    const bank = new StridedBank(make(times, [1, 1, 1], stream), "sum", stream);
    const lags = [0, 1, 5, 20];
    const sums = lags.map(() => 0);
    const n = 200000;
    const ring = new Float64Array(32);
    for (let i = 0; i < n; i++) {
      ring[i % 32] = bank.advance(1);
      lags.forEach((lag, l) => {
        sums[l]! += ring[i % 32]! * ring[(i - lag + 32) % 32]!;
      });
    }
    // Stationary covariance Σ e^(−t/T) (Uhlenbeck & Ornstein 1930). Variance of the estimate at most
    // 2·Σ_lag cov²/n = 2·(9 + 2·Σ…)/n < 2·60/n: σ = 0.025; 4 σ.
    lags.forEach((lag, l) => {
      const wanted = times.reduce((sum, time) => sum + Math.exp(-lag / time), 0);
      expect(Math.abs(sums[l]! / n - wanted)).toBeLessThan(0.1);
    });
  });
});
