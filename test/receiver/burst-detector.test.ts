import { describe, expect, it } from "vitest";
import { RandomStream } from "../../src/numeric/index.ts";
import { burstEnvelope } from "../../src/stages/drive/index.ts";
import { BurstDetector, burstLength, burstOutcome } from "../../src/stages/receiver/index.ts";
import { PlainDetector } from "./plain-detector.ts";
import {
  kolmogorovSmirnov,
  meanAndVariance,
  plainly,
  receiver,
  siegertMean,
  tone,
} from "./samples.ts";

const fresh = (changes = {}, toneChanges = {}, seed = "detector-1") =>
  new BurstDetector(
    { ...receiver, ...changes },
    { ...tone, ...toneChanges },
    new RandomStream(seed, "receiver"),
  );

/** Delays of n bursts that each begin after a long silence, missed ones left out. */
function delays(detector: BurstDetector, n: number, amplitude: number, phases: RandomStream) {
  const out: number[] = [];
  for (let i = 0; i < n; i++) {
    detector.begin();
    const delay = detector.detect(phases.uniform(), amplitude);
    if (!Number.isNaN(delay)) out.push(delay);
  }
  return out;
}

describe("BurstDetector without leak, many tone cycles in the delay", () => {
  // dx = μ dt + σ dW to a: μ = 2A/(πτ), mean of a rectified sine; σ² = 2·noise_v²/τ; a = θ.
  // Inverse Gaussian: A. Wald 1947; values from the closed form (a = μ = 1, σ = 0.5).
  const detector = fresh(
    { leak: false, timeConstant: 1, thresholdV: 1, noiseV: 0.5 / Math.SQRT2 },
    { carrierHz: 2000, envelope: burstEnvelope(20, 0) },
  );
  const n = 20000;
  const sample = delays(detector, n, Math.PI / 2, new RandomStream("wald", "phase"));

  it.each([
    [0.5, 0.1115750253],
    [0.8, 0.412308956],
    [1, 0.5944106413],
    [1.25, 0.75758811],
    [1.5, 0.8593033184],
    [2, 0.9542758182],
  ])("has the inverse Gaussian's distribution at %f s", (t, expected) => {
    const share = sample.filter((x) => x <= t).length / n;
    // 4.5 σ of a binomial share.
    expect(Math.abs(share - expected)).toBeLessThan(
      4.5 * Math.sqrt((expected * (1 - expected)) / n),
    );
  });

  it("has its mean a/μ and variance aσ²/μ³", () => {
    const { mean, variance } = meanAndVariance(sample);
    // 4.5 σ; the variance of the variance with kurtosis 3 + 15·σ²/(aμ) = 6.75.
    expect(Math.abs(mean - 1)).toBeLessThan(4.5 * Math.sqrt(0.25 / n));
    expect(Math.abs(variance / 0.25 - 1)).toBeLessThan(4.5 * Math.sqrt(5.75 / n));
  });
});

describe("BurstDetector with leak at a high carrier", () => {
  it("knows Siegert's integral (T = 100 and 3, a = μ = 1, σ = 0.5, by independent quadrature)", () => {
    expect(siegertMean(0, 1, 1, 100, 0.5)).toBeCloseTo(1.003769, 5);
    expect(siegertMean(0, 1, 1, 3, 0.5)).toBeCloseTo(1.150299, 5);
  });

  it("has Siegert's mean delay, averaged over a stationary start below the threshold", () => {
    const noise = 0.3;
    const level = 1.1;
    // 20 time constants at 1000 cycles each; μT = 2A/π = level, σ²T/2 = noise².
    const detector = fresh(
      { timeConstant: 1, thresholdV: 1, noiseV: noise },
      { carrierHz: 1000, envelope: burstEnvelope(60, 0) },
    );
    const n = 20000;
    const sample = delays(detector, n, (Math.PI * level) / 2, new RandomStream("sieg", "phase"));
    let weight = 0;
    let expected = 0;
    for (let z = -6; z < 1 / noise; z += 0.1) {
      const w = Math.exp(-0.5 * z * z) * Math.min(0.1, 1 / noise - z);
      weight += w;
      expected += w * siegertMean(z * noise, 1, level, 1, noise * Math.SQRT2);
    }
    const { mean, variance } = meanAndVariance(sample);
    // 4.5 σ, and the ripple of half a cycle.
    expect(Math.abs(mean - expected / weight)).toBeLessThan(4.5 * Math.sqrt(variance / n) + 5e-4);
  });
});

// Comparisons of distributions, each wrong by chance once in 50 000 times.
describe("BurstDetector against small steps of the circuit equation", () => {
  const runs = 1000;
  it.each([
    ["full wave", {}, {}, 0.2],
    ["half wave", { rectifier: "half" }, { amplitudeV: 18 }, 0.2],
    ["no leak", { leak: false }, {}, 0.2],
    ["low noise", { noiseV: 0.005 }, {}, 0.2],
    ["high noise", { noiseV: 0.6 }, {}, 0.2],
    ["few cycles in the delay", { timeConstant: 0.002 }, {}, 0.2],
    [
      "a tone slower than the integration",
      { timeConstant: 0.002 },
      { carrierHz: 50, amplitudeV: 9 },
      0.2,
    ],
    ["bursts missed", {}, { amplitudeV: 7 }, 0.2],
    ["a slow rise", {}, { envelope: burstEnvelope(0.06, 0.012) }, 0.2],
    ["a slow rise without leak", { leak: false }, { envelope: burstEnvelope(0.06, 0.012) }, 0.2],
    [
      "a slow rise, half wave",
      { rectifier: "half" },
      { amplitudeV: 18, envelope: burstEnvelope(0.06, 0.02) },
      0.2,
    ],
    [
      "rising to its end, crossings in the fall",
      { timeConstant: 0.03, thresholdV: 3.6 },
      { envelope: burstEnvelope(0.03, 0.03) },
      0.2,
    ],
    [
      "a slow rise, and charge left by the burst before",
      { timeConstant: 0.05 },
      { envelope: burstEnvelope(0.05, 0.02) },
      0.1,
    ],
    ["bursts blocked", {}, {}, 0.0655],
  ] as const)(
    "%s: same distribution, same misses, same blocks",
    (name, change, toneChange, period) => {
      const r = { ...receiver, ...change };
      const t = { ...tone, ...toneChange };
      const collect = (detector: BurstDetector | PlainDetector, bursts: number) => {
        const drive = new RandomStream(`${name} ${bursts}`, "drive");
        const found: number[] = [];
        let blocked = 0;
        const lost = 0;
        for (let i = 0; i < bursts; i++) {
          const amplitude = t.amplitudeV * (1 + t.amplitudeNoise * drive.normal());
          const delay = detector.detect(drive.uniform(), amplitude);
          if (!Number.isNaN(delay)) found.push(delay);
          if (detector.outcome === burstOutcome.blocked || detector.outcome === "blocked")
            blocked++;
          detector.rest(period - burstLength(t));
        }
        return { found, blocked: blocked / bursts, steps: 1 - lost / bursts };
      };
      const plain = collect(new PlainDetector(plainly(r, t), name, 200), runs);
      const fast = collect(new BurstDetector(r, t, new RandomStream(name, "fast")), 20 * runs);
      expect(kolmogorovSmirnov(plain.found, fast.found)).toBeLessThan(2.4);
      for (const share of ["blocked", "steps"] as const) {
        const p = fast[share];
        // 4.5 σ of a binomial share; blocks come in pairs at most, hence the factor √2.
        const sigma = Math.SQRT2 * Math.sqrt((p * (1 - p) + 1 / runs) / runs);
        expect(Math.abs(plain[share] - p)).toBeLessThan(4.5 * sigma);
      }
    },
  );
});

describe("BurstDetector at speed", () => {
  it.each([
    ["full wave", {}, {}],
    ["half wave", { rectifier: "half" }, { amplitudeV: 18 }],
    ["no leak", { leak: false }, {}],
    ["bursts missed", {}, { amplitudeV: 7 }],
  ] as const)("%s: has the law of the cell by cell detector", (name, change, toneChange) => {
    const n = 10000;
    const [fast, plain] = [false, true].map((isPlain) => {
      const stream = new RandomStream(`${name} ${isPlain}`, "receiver");
      const detector = new BurstDetector(
        { ...receiver, ...change },
        { ...tone, ...toneChange },
        stream,
        isPlain,
      );
      return delays(
        detector,
        n,
        { ...tone, ...toneChange }.amplitudeV,
        new RandomStream(`${name} 1`, "p"),
      );
    });
    expect(kolmogorovSmirnov(fast!, plain!)).toBeLessThan(2.2);
    expect(Math.abs(fast!.length - plain!.length)).toBeLessThan(4.5 * Math.sqrt(n / 2));
  });
});

describe("BurstDetector from burst to burst", () => {
  it("begins the next burst with the charge that is left, exactly", () => {
    // Without noise: after a burst and a silence, the delay of small steps carried through both.
    const detector = fresh({ noiseV: 0 });
    const plain = new PlainDetector(plainly({ ...receiver, noiseV: 0 }, tone), "carry", 20000);
    for (const silence of [0.012, 0.02]) {
      const delay = detector.detect(0.1, 12);
      expect(Math.abs(delay - plain.detect(0.1, 12))).toBeLessThan(4e-8);
      detector.rest(silence);
      plain.rest(silence);
    }
    expect(Math.abs(detector.detect(0.6, 12) - plain.detect(0.6, 12))).toBeLessThan(4e-8);
  });

  it("is blocked by charge above the threshold, and not for ever", () => {
    const detector = fresh({ noiseV: 0 });
    detector.detect(0, 12);
    // 7.6 V decay to 4.5 V in 5.3 ms.
    detector.rest(0.005);
    expect(detector.detect(0, 12)).toBeNaN();
    expect(detector.outcome).toBe(burstOutcome.blocked);
    detector.rest(0.006);
    expect(detector.detect(0, 12)).toBeGreaterThan(0);
    expect(detector.outcome).toBe(burstOutcome.step);
  });

  it("needs no earlier burst without leak, and as many as e^(−t/τ) asks for with it", () => {
    expect(fresh({ leak: false }).burstsToForget(0.07)).toBe(0);
    // No noise: ln(12e12/4.5) = 28.6 time constants = 0.286 s.
    expect(fresh({ noiseV: 0 }).burstsToForget(0.35)).toBe(0);
    expect(fresh({ noiseV: 0 }).burstsToForget(0.2)).toBe(1);
    expect(fresh({ noiseV: 0 }).burstsToForget(0.1)).toBe(3);
    // ln(1000·12/0.15) = 11.3 time constants = 0.113 s; of a tone a hundred times louder 0.159 s.
    expect(fresh({ noiseV: 0.15 }).burstsToForget(0.2)).toBe(0);
    expect(fresh({ noiseV: 0.15 }).burstsToForget(0.2, 100)).toBe(1);
    expect(fresh({ noiseV: 0.15 }).burstsToForget(0.1)).toBe(1);
  });

  it("gives the same delays for the same seed, and others for another", () => {
    const [a, b, c] = ["x", "x", "y"].map((seed) => fresh({}, {}, seed).detect(0.2, 12));
    expect(a).toBe(b);
    expect(a).not.toBe(c);
  });

  it("refuses a tone slower than a hundred time constants a period", () => {
    expect(() => fresh({ timeConstant: 1e-5 }, { carrierHz: 400 })).toThrow(RangeError);
  });
});
