import { describe, expect, it } from "vitest";
import { type NoiseLevels, PowerLawProcess } from "../../src/noise/index.ts";
import { RandomStream } from "../../src/numeric/index.ts";

import {
  loopNoise,
  outputDensity,
  rmsJitter,
  Synthesizer,
  type SynthesizerParameters,
} from "../../src/stages/synthesizer/index.ts";
import { autocorrelationAt } from "../../src/theory/index.ts";

const silent: NoiseLevels = {
  whitePmRms: 0,
  h1: 0,
  h0: 0,
  hMinus1: 0,
  hMinus2: 0,
  bandwidthHz: 5e6,
  flickerLongest: 1e8,
};
/** A floor of 5e-7: σ_y² = 2·ln 2·h₋₁ (IEEE Std 1139). */
const level = 2.5e-13 / (2 * Math.LN2);
const comparisonHz = 1e5;

function loopOf(naturalHz: number, damping: number, bandwidthHz: number): SynthesizerParameters {
  return {
    outputHz: 5,
    settingStepHz: 0,
    loop: { naturalHz, damping, comparisonHz },
    noise: { ...silent, hMinus1: level, bandwidthHz },
    phaseDetectorWhite: 0,
    spurs: [],
  };
}

/** √∫ S_y/(2πf)²·|1 − H|² df by the trapezoidal rule over ln f; |1 − H|²: Gardner, Phaselock Techniques, ch. 2. */
function integrated(
  naturalHz: number,
  damping: number,
  density: (f: number) => number,
  highest: number,
): number {
  const steps = 20000;
  const low = Math.log(1e-5 * naturalHz);
  const width = (Math.log(highest) - low) / steps;
  let sum = 0;
  for (let i = 0; i <= steps; i++) {
    const f = Math.exp(low + i * width);
    const s = (f / naturalHz) ** 2;
    const left = (s * s) / ((1 - s) ** 2 + 4 * damping * damping * s);
    const weight = i === 0 || i === steps ? 0.5 : 1;
    sum += (weight * width * f * density(f) * left) / (2 * Math.PI * f) ** 2;
  }
  return Math.sqrt(sum);
}

/** Rms by the theory of budgets, about the reference. */
const planned = (parameters: SynthesizerParameters): number =>
  Math.sqrt(
    loopNoise(parameters, silent).reduce(
      (sum, { shape }) =>
        sum + (shape.type === "correlated" ? autocorrelationAt(shape.decays, 0) : 0),
      0,
    ),
  );

/** Rms of edges so far apart that the loop has forgotten the one before. */
function simulated(parameters: SynthesizerParameters, edges: number): number {
  const { naturalHz, damping } = parameters.loop;
  const dt = Math.max(0.2, (10 * Math.max(damping, 1 / damping)) / naturalHz);
  const reference = new PowerLawProcess(silent, 1e-3, new RandomStream("loop", "reference"));
  const stream = new RandomStream("loop", `${naturalHz} ${damping}`);
  const synthesizer = new Synthesizer(parameters, reference, 0.2, stream);
  const row = 100;
  const nominals = new Float64Array(row);
  const errors = new Float64Array(row);
  let sum = 0;
  for (let done = 0; done < edges; done += row) {
    reference.advance(dt, row);
    synthesizer.follow(dt);
    synthesizer.timeErrors(nominals, errors);
    for (const error of errors) sum += error * error;
  }
  return Math.sqrt(sum / edges);
}

const cases = [0.1, 1.5, 10].flatMap((naturalHz) =>
  [0.5, 0.8, 3].flatMap((damping) =>
    [comparisonHz / 2, 30 * naturalHz].map((bandwidth) => [naturalHz, damping, bandwidth] as const),
  ),
);

describe("flicker FM of a loop's own oscillator", () => {
  it.each(cases)(
    "has the jitter of ∫ S_x·|1 − H|² df to a hundredth: %s Hz, ζ %s, band to %s Hz",
    (naturalHz, damping, bandwidth) => {
      const parameters = loopOf(naturalHz, damping, bandwidth);
      const expected = integrated(naturalHz, damping, (f) => level / f, bandwidth);
      const { oscillator } = rmsJitter(parameters, silent);
      expect(Math.abs(oscillator / expected - 1)).toBeLessThan(0.01);
      expect(Math.abs(planned(parameters) / expected - 1)).toBeLessThan(0.01);
      // 60 000 squares, hardly correlated: σ of the rms 0.3 %; with 3 of them beside 0.2 % of theory 1.1 %.
      expect(Math.abs(simulated(parameters, 60_000) / expected - 1)).toBeLessThan(0.011);
    },
  );

  it("is what a spectrum says that ends with the band", () => {
    for (const f of [0.01, 3, 49]) {
      const own = outputDensity(loopOf(1.5, 0.8, 50), silent, f);
      const s = (f / 1.5) ** 2;
      const left = (s * s) / ((1 - s) ** 2 + 2.56 * s);
      expect(own / ((left * level) / f / (2 * Math.PI * f) ** 2)).toBeCloseTo(1, 9);
    }
    expect(outputDensity(loopOf(1.5, 0.8, 50), silent, 51)).toBe(0);
  });

  it("never grows where its band is made narrower", () => {
    const bands = [5e4, 500, 50, 15, 5, 2.5, 1, 0.3];
    const rms = bands.map((band) => rmsJitter(loopOf(1.5, 0.8, band), silent).oscillator);
    rms.slice(1).forEach((value, i) => {
      expect(value).toBeLessThan(rms[i]! * 1.001);
    });
  });

  it("ends softly where the band ends within the loop: relaxation from 1/(2π·band) up, and all faster as one", () => {
    for (const band of [5, 1.5, 0.5]) {
      // Σ over T > 1/(2π·f_h), evenly in log T, is (h/f)·(2/π)·atan(f_h/f); the faster, of the same ∫, one process more.
      const variance = (level * Math.LN10) / 2;
      const time = Math.sqrt(Math.sqrt(10)) / (Math.sqrt(10) - 1) / (2 * Math.PI * band);
      const density = (f: number) =>
        (level / f) * (2 / Math.PI) * Math.atan(band / f) +
        (4 * variance * time) / (1 + (2 * Math.PI * f * time) ** 2);
      const expected = integrated(1.5, 0.8, density, 1e6);
      const parameters = loopOf(1.5, 0.8, band);
      expect(Math.abs(rmsJitter(parameters, silent).oscillator / expected - 1)).toBeLessThan(0.01);
      expect(Math.abs(simulated(parameters, 60_000) / expected - 1)).toBeLessThan(0.02);
    }
  });
});
