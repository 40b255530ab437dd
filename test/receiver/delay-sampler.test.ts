import { describe, expect, it } from "vitest";
import { RandomStream } from "../../src/numeric/index.ts";
import { burstEnvelope } from "../../src/stages/drive/index.ts";
import {
  BurstDetector,
  DelayLaw,
  DelaySampler,
  delayTables,
} from "../../src/stages/receiver/index.ts";
import { kolmogorovSmirnov, meanAndVariance, receiver, tone } from "./samples.ts";

const n = 1e5;

const lawOf = (changes: object, toneChanges: object) =>
  new DelayLaw({ ...receiver, ...changes }, { ...tone, ...toneChanges }, Number.POSITIVE_INFINITY);

/** Delays of bursts after a long silence, by the detector and by their law, at the phases given. */
function both(changes: object, toneChanges: object, isLocked: boolean, phaseOf: () => number) {
  const set = { ...receiver, ...changes };
  const sent = { ...tone, ...toneChanges };
  const law = lawOf(changes, { ...toneChanges, carrierLock: isLocked ? "locked" : "free" });
  const sampler = new DelaySampler(delayTables(law)!, new RandomStream("sampler-1", "receiver"));
  const detector = new BurstDetector(set, sent, new RandomStream("sampler-2", "receiver"));
  const amplitudes = new RandomStream("sampler-3", "amplitude");
  const plain: number[] = [];
  const lawful: number[] = [];
  for (let i = 0; i < n; i++) {
    const phase = phaseOf();
    detector.begin();
    const factor = Math.max(0, 1 + sent.amplitudeNoise * amplitudes.normal());
    plain.push(detector.detect(phase, sent.amplitudeV * factor));
    lawful.push(sampler.drawOne(phase));
  }
  return { plain, lawful };
}

function anyPhase(): () => number {
  const stream = new RandomStream("sampler-4", "phase");
  return () => stream.uniform();
}

const cases: readonly [string, object, object, boolean, () => number][] = [
  ["an observatory's receiver", {}, {}, false, anyPhase()],
  ["no noise of the amplitude", {}, { amplitudeNoise: 0 }, false, anyPhase()],
  ["an amplitude noisier than the receiver", {}, { amplitudeNoise: 0.04 }, true, () => 0],
  ["a start between two phases of the law", {}, {}, false, () => 0.3 / 128],
  ["a start in the last part of a period", {}, {}, false, () => 0.4999],
  ["a locked tone", {}, {}, true, () => 0],
  [
    "a half-wave rectifier",
    { rectifier: "half", noiseV: 0.15, thresholdV: 2.2, timeConstant: 0.012 },
    {},
    true,
    () => 0,
  ],
  ["a slow rise", {}, { envelope: burstEnvelope(0.06, 0.01) }, false, anyPhase()],
  ["no leak", { leak: false, thresholdV: 9 }, { envelope: burstEnvelope(0.04, 0) }, true, () => 0],
  ["a ripple as large as the noise", { noiseV: 0.11 }, { carrierHz: 700 }, false, anyPhase()],
];

describe("DelaySampler against the detector, burst by burst", () => {
  it.each(cases)(
    "%s: same distribution, mean and spread",
    (_, changes, toneChanges, locked, phase) => {
      const { plain, lawful } = both(changes, toneChanges, locked, phase);
      // Kolmogorov: 2.2 is exceeded once in 8000 cases.
      expect(kolmogorovSmirnov(plain, lawful)).toBeLessThan(2.2);
      const a = meanAndVariance(plain);
      const b = meanAndVariance(lawful);
      // 4 σ of the difference of two means, and of two variances with a kurtosis of at most 4.
      expect(Math.abs(a.mean - b.mean)).toBeLessThan(4 * Math.sqrt((2 * a.variance) / n));
      expect(Math.abs(b.variance / a.variance - 1)).toBeLessThan(4 * Math.sqrt((2 * 3) / n));
    },
  );
});

describe("DelaySampler", () => {
  it("draws a row as it draws one by one", () => {
    const phases = Float64Array.from({ length: 40 }, (_, i) => i / 40);
    for (const isLocked of [false, true]) {
      const law = lawOf({}, { carrierLock: isLocked ? "locked" : "free" });
      const make = () =>
        new DelaySampler(delayTables(law)!, new RandomStream("sampler-6", "receiver"));
      const row = new Float64Array(40);
      make().draw(phases, 40, row);
      const single = make();
      expect(Array.from(row)).toEqual(Array.from(phases, (phase) => single.drawOne(phase)));
    }
  });

  it("has the mean of its law at the phases of its law", () => {
    // Exact: a law straight between its points has its mean at the weighted mean of the points.
    const law = lawOf({}, {});
    const sampler = new DelaySampler(delayTables(law)!, new RandomStream("sampler-5", "receiver"));
    const k = 5;
    const expected = law.phases[k]!.mean;
    const phase = k / law.phases.length;
    const sample = Array.from({ length: 20000 }, () => sampler.drawOne(phase / 2));
    const { mean, variance } = meanAndVariance(sample);
    // 4 σ of the mean.
    expect(Math.abs(mean - expected)).toBeLessThan(4 * Math.sqrt(variance / sample.length));
  });
});

describe("delayTables", () => {
  it.each([
    ["no noise", { noiseV: 0 }, {}],
    ["a step within the first period", { timeConstant: 0.0005, thresholdV: 2 }, {}],
    ["noise too small to move during the approach", { noiseV: 0.002 }, {}],
    ["a burst that only just reaches", {}, { envelope: burstEnvelope(0.5, 0), amplitudeV: 7 }],
    ["an amplitude below the threshold", {}, { amplitudeV: 4 }],
  ])("leaves %s to the detector", (_, changes, toneChanges) => {
    expect(delayTables(lawOf(changes, toneChanges))).toBeNull();
  });
});
