import { describe, expect, it } from "vitest";
import type { NoiseLevels } from "../../src/noise/index.ts";
import { mostSteps, PowerLawProcess, rateLadder } from "../../src/noise/index.ts";
import { RandomStream } from "../../src/numeric/index.ts";
import { covarianceOf, largestDifference } from "./impulses.ts";

const silent: NoiseLevels = {
  whitePmRms: 0,
  h1: 0,
  h0: 0,
  hMinus1: 0,
  hMinus2: 0,
  bandwidthHz: 50,
  flickerLongest: 1e8,
};

/** Allan variance from one process that makes each interval tau in the steps given as parts of it. */
function measuredVariance(levels: NoiseLevels, tau: number, parts: number[], seed: string) {
  const finest = tau * Math.min(...parts);
  const process = new PowerLawProcess(levels, finest, new RandomStream(seed, "process"));
  const read = () => process.accumulated + process.phaseNoise() + process.edgeDeviate();
  let x0 = read();
  let x1 = 0;
  let sum = 0;
  const pairs = 16000;
  for (let i = 0; i <= pairs; i++) {
    for (const part of parts) {
      process.advance(part * tau);
    }
    const x2 = read();
    if (i > 0) {
      const second = x2 - 2 * x1 + x0;
      sum += second * second;
      x0 = x1;
    }
    x1 = x2;
  }
  return sum / (2 * pairs * tau * tau);
}

// Squared deviations expected: IEEE Std 1139-2008, Annex B. 16000 second differences of intervals tau have at least
// 8000 degrees of freedom: one σ of the deviation is 0.8 %, and 3 % is 3.8 σ (1.5e-4 a check).
const noises: [name: string, levels: NoiseLevels, variance: (tau: number) => number][] = [
  ["white PM", { ...silent, whitePmRms: 2e-9 }, (tau) => (3 * 4e-18) / tau ** 2],
  [
    "flicker PM",
    { ...silent, h1: 1e-20 },
    (tau) =>
      (1e-20 * (1.038 + 3 * Math.log(2 * Math.PI * 50 * tau))) / (4 * Math.PI ** 2 * tau ** 2),
  ],
  ["white FM", { ...silent, h0: 8e-22 }, (tau) => 8e-22 / (2 * tau)],
  ["flicker FM", { ...silent, hMinus1: 3e-26 }, () => 2 * Math.LN2 * 3e-26],
  [
    "random-walk FM",
    { ...silent, hMinus2: 1e-30 },
    (tau) => ((2 * Math.PI ** 2) / 3) * tau * 1e-30,
  ],
];

describe("PowerLawProcess", () => {
  describe.each(noises)("%s alone", (name, levels, variance) => {
    it.each([
      [0.1, [1]],
      [30, [0.013, 0.987]],
      [3e5, [0.5, 0.2, 0.3]],
    ] as [number, number[]][])("has its Allan deviation at %s s within 3 %%", (tau, parts) => {
      const measured = measuredVariance(levels, tau, parts, `${name} ${tau}`);
      expect(Math.abs(Math.sqrt(measured / variance(tau)) - 1)).toBeLessThan(0.03);
    });
  });

  it("starts flicker stationary and the random walk and time error at zero", () => {
    const levels = { ...silent, hMinus1: 1, hMinus2: 1 };
    let sum = 0;
    for (let i = 0; i < 400; i++) {
      const process = new PowerLawProcess(levels, 1, new RandomStream(`${i}`, "start"));
      const walkAt = rateLadder(levels, 1).timeConstants.indexOf(Infinity);
      const { after } = process.single(Int32Array.of(5, walkAt), new Int32Array(0)).rate;
      expect(after[1]).toBe(0);
      expect(process.accumulated).toBe(0);
      sum += after[0]! * after[0]!;
    }
    // Variance v = h₋₁·ln 10/2 of each process; 400 squares: σ = √(2/400) = 7 %, 4 σ.
    expect(Math.abs(sum / 400 / (Math.LN10 / 2) - 1)).toBeLessThan(0.28);
  });

  it("is the same whatever edges are looked at, where these have a stream of their own", () => {
    const levels = { ...silent, h1: 1e-20, h0: 1e-20, hMinus1: 1e-24, whitePmRms: 1e-9 };
    const make = () =>
      new PowerLawProcess(levels, 1, new RandomStream("s", "a"), new RandomStream("s", "edge"));
    const watched = make();
    const alone = make();
    for (let i = 0; i < 50; i++) {
      watched.advance(1.5);
      watched.edgeDeviate();
      alone.advance(1.5);
    }
    expect(watched.accumulated).toBe(alone.accumulated);
    expect(watched.phaseNoise()).toBe(alone.phaseNoise());
  });

  it("keeps what the last step was made of, where all terms are stepped singly", () => {
    const levels = { ...silent, h0: 1e-20, hMinus1: 1e-22, hMinus2: 1e-26 };
    const process = new PowerLawProcess(levels, 1, new RandomStream("s", "parts"));
    const all = Int32Array.from(rateLadder(levels, 1).timeConstants.keys());
    const { rate } = process.single(all, new Int32Array(0));
    process.advance(3);
    const earlier = process.accumulated;
    process.advance(7);
    const { before, after, timeConstants } = rate;
    let mean = 0;
    for (let k = 0; k < after.length; k++) {
      const time = timeConstants[k]!;
      // Mean of the integral given both ends: T·tanh(dt/2T)·(y₀ + y₁) (Gillespie 1996, conditioned).
      const weight = time === Infinity ? 3.5 : time * Math.tanh(3.5 / time);
      mean += weight * (before[k]! + after[k]!);
    }
    const whole = process.accumulated - earlier;
    expect(Math.abs(mean + process.path.residuals[0]! - whole) / Math.abs(whole)).toBeLessThan(
      1e-12,
    );
    expect(process.lastStep).toBe(7);
  });

  it("draws the same however many steps are made at a time", () => {
    const levels = { ...silent, h0: 0.1, hMinus1: 1, hMinus2: 1e-4, h1: 1, flickerLongest: 100 };
    for (const isSingled of [false, true]) {
      const make = () => {
        const process = new PowerLawProcess(levels, 1, new RandomStream("s", "rows"));
        if (isSingled) process.single(Int32Array.of(0, 3), Int32Array.of(2));
        return process;
      };
      const singly = make();
      const inRows = make();
      for (const [dt, steps] of [
        [1, 5],
        [1, 90],
        [1, 1],
        [0.5, 3],
        [1, 40],
      ] as const) {
        inRows.advance(dt, steps);
        for (let i = 0; i < steps; i++) {
          singly.advance(dt);
          expect(inRows.path.accumulated[i]).toBe(singly.accumulated);
          expect(inRows.path.residuals[i]).toBe(singly.path.residuals[0]);
        }
        expect(inRows.accumulated).toBe(singly.accumulated);
        expect(inRows.phaseNoise()).toBe(singly.phaseNoise());
      }
      expect(() => inRows.advance(1, mostSteps + 1)).toThrow(
        "steps must be from 1 to 128, got 129",
      );
    }
  });

  it("has the same law whichever terms are stepped singly, from the start or later on", () => {
    const levels = { ...silent, h0: 0.1, hMinus1: 1, hMinus2: 1e-4, h1: 1, flickerLongest: 100 };
    const steps = [...new Array<number>(40).fill(1), 0.5, 3];
    const lawOf = (singleAt: number) =>
      covarianceOf((stream) => {
        const process = new PowerLawProcess(levels, 1, stream);
        return steps.flatMap((dt, i) => {
          if (i === singleAt) process.single(Int32Array.of(0, 3, 4), Int32Array.of(2));
          process.advance(dt);
          return [process.accumulated, process.phaseNoise()];
        });
      }).covariance;
    const never = lawOf(-1);
    expect(largestDifference(never, lawOf(0))).toBeLessThan(1e-10);
    expect(largestDifference(never, lawOf(23))).toBeLessThan(1e-10);
  });

  it("singles terms out once only", () => {
    const process = new PowerLawProcess({ ...silent, hMinus1: 1 }, 1, new RandomStream("s", "one"));
    process.single(Int32Array.of(1), new Int32Array(0));
    expect(() => process.single(Int32Array.of(0), new Int32Array(0))).toThrow(
      /terms must be singled out once only/,
    );
  });

  it.each([0, -1, Number.NaN, Infinity])("throws RangeError naming dt when dt = %s", (dt) => {
    const process = new PowerLawProcess(silent, 1, new RandomStream("s", "dt"));
    expect(() => process.advance(dt)).toThrow(/dt must be > 0 s/);
  });
});
