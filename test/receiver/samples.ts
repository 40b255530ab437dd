import { burstEnvelope } from "../../src/stages/drive/index.ts";
import type { DrivenTone, ReceiverParameters } from "../../src/stages/receiver/index.ts";
import type { PlainSettings } from "./plain-detector.ts";

/** A receiver as an amateur observatory may have one. */
export const receiver: ReceiverParameters = {
  rectifier: "full",
  timeConstant: 0.01,
  leak: true,
  thresholdV: 4.5,
  noiseV: 0.15,
  extraStepRateHz: 0,
};

/** The tone it listens to. */
export const tone: DrivenTone = {
  carrierHz: 1370,
  carrierFractionalOffset: 0,
  envelope: burstEnvelope(0.06, 0),
  carrierLock: "free",
  dropProbability: 0,
  amplitudeV: 12,
  amplitudeNoise: 0.02,
};

/** The same for a plain detector. */
export function plainly(set: ReceiverParameters, sent: DrivenTone): PlainSettings {
  const { rectifier, timeConstant, leak, thresholdV, noiseV } = set;
  const [, rise, fall] = sent.envelope;
  const { carrierHz } = sent;
  return {
    rectifier,
    timeConstant,
    leak,
    thresholdV,
    noiseV,
    carrierHz,
    burst: fall!.at,
    rise: rise!.at,
  };
}

/** Mean and variance of a sample. */
export function meanAndVariance(x: readonly number[]): { mean: number; variance: number } {
  const mean = x.reduce((a, b) => a + b, 0) / x.length;
  const variance = x.reduce((a, b) => a + (b - mean) ** 2, 0) / (x.length - 1);
  return { mean, variance };
}

/**
 * √(nm/(n+m)) times the largest distance of two empirical distributions. Its law is Kolmogorov's: 1.95 is
 * exceeded in 1 of 1000 cases, 2.4 in 1 of 50 000.
 */
export function kolmogorovSmirnov(first: readonly number[], second: readonly number[]): number {
  const a = Float64Array.from(first).sort();
  const b = Float64Array.from(second).sort();
  let i = 0;
  let j = 0;
  let largest = 0;
  while (i < a.length && j < b.length) {
    if (a[i]! <= b[j]!) i++;
    else j++;
    largest = Math.max(largest, Math.abs(i / a.length - j / b.length));
  }
  return largest * Math.sqrt((a.length * b.length) / (a.length + b.length));
}

/** e^{x²}·erfc(x) by the midpoint rule on its integral 2/√π·∫₀^∞ e^{−t² − 2xt} dt (DLMF 7.7.6). */
export function erfcx(x: number): number {
  if (x < 0) return 2 * Math.exp(x * x) - erfcx(-x);
  let sum = 0;
  const h = 0.002 / (1 + x);
  const end = Math.min(7, 20 / (x + 0.1));
  for (let t = 0.5 * h; t < end; t += h) sum += Math.exp(-t * t - 2 * x * t);
  return (2 / Math.sqrt(Math.PI)) * sum * h;
}

/**
 * Mean first passage of dx = (μ − x/T)dt + σdW from x₀ to a: T√π·∫ erfcx(−u) du from (x₀ − μT)/(σ√T) to
 * (a − μT)/(σ√T), Simpson's rule. Source: A. J. F. Siegert, Phys. Rev. 81, 617 (1951).
 */
export function siegertMean(
  x0: number,
  a: number,
  mu: number,
  time: number,
  sigma: number,
): number {
  const from = (x0 - mu * time) / (sigma * Math.sqrt(time));
  const to = (a - mu * time) / (sigma * Math.sqrt(time));
  const n = 64;
  const h = (to - from) / n;
  let sum = 0;
  for (let i = 0; i <= n; i++) {
    const weight = i === 0 || i === n ? 1 : i % 2 === 1 ? 4 : 2;
    sum += weight * erfcx(-(from + i * h));
  }
  return (time * Math.sqrt(Math.PI) * sum * h) / 3;
}
