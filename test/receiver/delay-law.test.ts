import { describe, expect, it } from "vitest";
import { burstEnvelope } from "../../src/stages/drive/index.ts";
import { burstLength, DelayLaw, delayLaw } from "../../src/stages/receiver/index.ts";
import { plainRun } from "./plain-detector.ts";
import { meanAndVariance, plainly, receiver, siegertMean, tone } from "./samples.ts";

const once = Number.POSITIVE_INFINITY;
const still = { ...tone, amplitudeNoise: 0 };

describe("DelayLaw against closed forms", () => {
  it("agrees with Wald: mean a/μ, variance aσ²/μ³, without leak at a high carrier", () => {
    // a = μ = 1, σ = 0.5 (μ = 2A/(πτ), σ² = 2·noise_v²/τ): mean 1, variance 0.25. A. Wald 1947.
    const law = new DelayLaw(
      { ...receiver, leak: false, timeConstant: 1, thresholdV: 1, noiseV: 0.5 / Math.SQRT2 },
      { ...still, carrierHz: 2000, envelope: burstEnvelope(20, 0), amplitudeV: Math.PI / 2 },
      once,
    );
    expect(law.meanDelay).toBeCloseTo(1, 2);
    expect(law.rmsDelay).toBeCloseTo(0.5, 2);
  });

  it("agrees with Siegert 1951, averaged over the start, with leak at a high carrier", () => {
    const noise = 0.25;
    const level = 1.2;
    const law = new DelayLaw(
      { ...receiver, timeConstant: 1, thresholdV: 1, noiseV: noise },
      {
        ...still,
        carrierHz: 2000,
        envelope: burstEnvelope(50, 0),
        amplitudeV: (Math.PI * level) / 2,
      },
      once,
    );
    let weight = 0;
    let expected = 0;
    for (let z = -6; z < 1 / noise; z += 0.1) {
      const w = Math.exp(-0.5 * z * z);
      weight += w;
      expected += w * siegertMean(z * noise, 1, level, 1, noise * Math.SQRT2);
    }
    expect(Math.abs(law.meanDelay / (expected / weight) - 1)).toBeLessThan(2e-3);
  });

  it("tells bursts that begin above the threshold from those missed", () => {
    // Noise beyond 3.125 σ, in 8.890e-4 of all bursts (normal distribution, Abramowitz & Stegun, table 26.1), blocks a
    // burst so strong that none is missed.
    const law = new DelayLaw(
      { ...receiver, thresholdV: 2.5, noiseV: 0.8 },
      { ...still, amplitudeV: 60 },
      once,
    );
    expect(law.blockedProbability).toBeCloseTo(8.89e-4, 6);
    expect(law.missProbability).toBeLessThan(1e-12);
  });

  it("without noise is the average of the closed form over phases: a uniform share of a period", () => {
    // A fast tone and no noise: the delay is the charge law's, within a half cycle.
    const law = new DelayLaw({ ...receiver, noiseV: 0 }, { ...still, carrierHz: 50000 }, once);
    expect(Math.abs(law.meanDelay + 0.01 * Math.log(1 - (4.5 * Math.PI) / 24))).toBeLessThan(1e-5);
    expect(law.rmsDelay).toBeLessThan(1e-5);
    expect(law.missProbability).toBe(0);
  });

  it.each([0, 0.02])(
    "follows the charge without noise, rise %f s: small steps of v' = (A·L·|sin| − v)/τ",
    (rise) => {
      const law = new DelayLaw(
        { ...receiver, noiseV: 0 },
        { ...still, envelope: burstEnvelope(0.06, rise) },
        once,
      );
      const { mean, variance } = law.byPhase;
      expect(Math.sqrt(Math.max(...variance))).toBeLessThan(1e-6);
      for (const part of [0, 0.1, 0.33, 0.69]) {
        // Heun's rule, 0.1 µs a step: an independent integration of the circuit equation.
        const i = Math.round(part * mean.length);
        const step = 1e-7;
        const drive = (t: number) =>
          12 *
          Math.min(1, t / Math.max(rise, 1e-300)) *
          Math.abs(Math.sin(2 * Math.PI * (1370 * t + i / mean.length)));
        let v = 0;
        let t = 0;
        while (v < 4.5) {
          const first = (drive(t) - v) / 0.01;
          const second = (drive(t + step) - v - step * first) / 0.01;
          v += (step * (first + second)) / 2;
          t += step;
        }
        expect(Math.abs(mean[i]! - t)).toBeLessThan(3e-7);
      }
    },
  );

  it("has the charge of a locked tone's bursts as a geometric series: small steps through many bursts", () => {
    const set = { ...receiver, noiseV: 0, timeConstant: 0.05, thresholdV: 5 };
    const sent = { ...still, carrierLock: "locked", envelope: burstEnvelope(0.075, 0) } as const;
    const law = new DelayLaw(set, sent, 1 / 6);
    const { delays } = plainRun(plainly(set, sent), "locked", 2, {
      period: 1 / 6,
      amplitudeV: 12,
      amplitudeNoise: 0,
      stepsPerCycle: 2000,
      phaseOf: () => 0,
    });
    expect(Math.abs(law.meanDelay - delays[1]!)).toBeLessThan(1e-6);
  });
});

const remembering = { timeConstant: 0.05, thresholdV: 5 };
const often = { envelope: burstEnvelope(0.075, 0) };

// Standard errors of 4 σ are exceeded once in 16 000 times; spreads with a kurtosis of at most 9.
describe("DelayLaw against small steps of the circuit equation", () => {
  it.each([
    ["full wave", {}, {}, 0.2, 200],
    ["half wave", { rectifier: "half" }, { amplitudeV: 18 }, 0.2, 200],
    ["no leak", { leak: false }, {}, 0.2, 200],
    ["high noise", { noiseV: 0.6 }, {}, 0.2, 200],
    ["low noise", { noiseV: 0.01 }, {}, 0.2, 200],
    ["weak drive", {}, { amplitudeV: 7 }, 0.2, 200],
    ["a slow rise", {}, { envelope: burstEnvelope(0.06, 0.01) }, 0.2, 200],
    [
      "a slow rise without leak",
      { leak: false },
      { envelope: burstEnvelope(0.06, 0.02) },
      0.2,
      200,
    ],
    [
      "a slow rise, half wave",
      { rectifier: "half" },
      { amplitudeV: 18, envelope: burstEnvelope(0.06, 0.02) },
      0.2,
      200,
    ],
    [
      "crossings in the rise and the fall",
      { timeConstant: 0.03, thresholdV: 3.6 },
      { envelope: burstEnvelope(0.03, 0.03) },
      0.2,
      200,
    ],
    ["charge of the burst before", remembering, often, 1 / 6, 150],
    [
      "a slow rise on such charge",
      remembering,
      { envelope: burstEnvelope(0.06, 0.03) },
      1 / 6,
      150,
    ],
    ["some missed, with such charge", { ...remembering, thresholdV: 6.4 }, often, 1 / 6, 150],
    ["blocked by such charge", { timeConstant: 0.12, thresholdV: 2.4 }, often, 1 / 6, 150],
    ["a locked tone", remembering, { ...often, carrierLock: "locked" }, 1 / 6, 150],
    // A burst is a sixteenth of a turn: at some phases it brings nothing, at others it is quick.
    ["a slow tone", {}, { carrierHz: 1.01 }, 0.2, 30_000],
    ["a slow tone, no leak", { leak: false }, { carrierHz: 1.01 }, 0.2, 30_000],
    ["a time constant within a period", { timeConstant: 1e-4 }, { amplitudeV: 5 }, 0.2, 800],
  ] as const)(
    "%s: mean, spread, misses, blocks",
    (name, change, toneChange, period, stepsPerCycle) => {
      const set = { ...receiver, ...change };
      const sent = { ...tone, ...toneChange };
      const n = 1500;
      const law = new DelayLaw(set, sent, period);
      const advance = sent.carrierHz * period + 1e-3 * Math.PI;
      const run = plainRun(plainly(set, sent), name, n, {
        period,
        amplitudeV: sent.amplitudeV,
        amplitudeNoise: sent.amplitudeNoise,
        stepsPerCycle,
        phaseOf: (burst) => (sent.carrierLock === "locked" ? 0 : (0.1 + burst * advance) % 1),
      });
      // What is left of a burst makes those after it alike: as if there were so many fewer.
      const kept = set.leak ? Math.exp(-period / set.timeConstant) : 0;
      const alike = (1 + kept) / (1 - kept);
      const { mean, variance } = meanAndVariance(run.delays);
      const steps = run.delays.length / alike;
      expect(Math.abs(mean - law.meanDelay)).toBeLessThan(
        4 * Math.sqrt(variance / steps) + 1e-3 * mean,
      );
      expect(Math.abs(Math.sqrt(variance) / law.rmsDelay - 1)).toBeLessThan(
        4 * Math.sqrt(2 / steps),
      );
      for (const [found, expected] of [
        [run.missed, law.missProbability],
        [run.blocked, law.blockedProbability],
      ] as const) {
        expect(Math.abs(found - expected)).toBeLessThan(
          4 * Math.sqrt((alike * (expected * (1 - expected) + 1 / n)) / n),
        );
      }
    },
  );
});

describe("delayLaw", () => {
  it("is the same law for copies of one scenario, whatever the period where nothing is left", () => {
    const law = delayLaw(receiver, tone, 0.2);
    expect(delayLaw({ ...receiver }, { ...tone }, 0.3)).toBe(law);
    expect(delayLaw(receiver, tone, 0.1)).not.toBe(law);
  });

  it("counts a burst with its fall", () => {
    expect(burstLength({ ...tone, envelope: burstEnvelope(0.06, 0.01) })).toBeCloseTo(0.07, 15);
  });
});
