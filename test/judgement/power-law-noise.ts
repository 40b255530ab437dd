import seedrandom from "seedrandom";
import { transform } from "../prove/noise-model/generators.ts";

/** Noise levels of a made record, in units of one interval. */
export interface MadeNoise {
  /** Variance of white PM on each edge. */
  readonly measurement?: number;
  /** Flicker PM on each edge: variance π·level of the white noise that is filtered to 1/f, S_x(f) = level/f. */
  readonly flickerPm?: number;
  /** Variance of white FM in one interval. */
  readonly whiteFm?: number;
  /** Flicker FM h₋₁. */
  readonly flickerFm?: number;
  /** Variance that random-walk FM adds to the rate in one interval. */
  readonly randomWalkFm?: number;
  /** Drift of the rate in one interval. */
  readonly drift?: number;
  /** A slow beat on each edge: amplitude, and cycles an interval. */
  readonly beat?: readonly [number, number];
}

/** Independent normal deviates (Box & Muller 1958) from a seeded stream. */
export function normalStream(seed: string): () => number {
  const uniform = seedrandom.xor4096(seed);
  let spare = Number.NaN;
  return () => {
    if (!Number.isNaN(spare)) {
      const value = spare;
      spare = Number.NaN;
      return value;
    }
    const r = Math.sqrt(-2 * Math.log(1 - uniform.double()));
    const angle = 2 * Math.PI * uniform.double();
    spare = r * Math.sin(angle);
    return r * Math.cos(angle);
  };
}

const responses = new Map<number, { re: Float64Array; im: Float64Array }>();

/**
 * Flicker FM by the discrete filter of Kasdin & Walter (1992): h_0 = 1, h_k = h_{k−1}(k − 1/2)/k on white
 * noise of variance π·h₋₁ (Kasdin 1995). Seven eighths of the record run in; four samples an interval keep
 * the excess of the discrete series over the continuous law small.
 */
function flickerRates(
  intervals: number,
  level: number,
  normal: () => number,
  fine = 4,
): Float64Array {
  const total = 8 * intervals * fine;
  let size = 1;
  while (size < 2 * total) size *= 2;
  let response = responses.get(total);
  if (response === undefined) {
    response = { re: new Float64Array(size), im: new Float64Array(size) };
    for (let k = 0, h = 1; k < total; k++, h *= (k - 0.5) / k) response.re[k] = h;
    transform(response.re, response.im, -1);
    responses.set(total, response);
  }
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  for (let i = 0; i < total; i++) re[i] = Math.sqrt(Math.PI * level) * normal();
  transform(re, im, -1);
  for (let i = 0; i < size; i++) {
    const a = re[i]! * response.re[i]! - im[i]! * response.im[i]!;
    im[i] = re[i]! * response.im[i]! + im[i]! * response.re[i]!;
    re[i] = a;
  }
  transform(im, re, -1);
  const rates = new Float64Array(intervals);
  const first = total - intervals * fine;
  for (let i = 0; i < intervals * fine; i++) {
    rates[Math.floor(i / fine)]! += re[first + i]! / size / fine;
  }
  return rates;
}

/** Time errors of K + 1 edges, as they are and as they are measured, in units of one interval. */
export function makeEdges(intervals: number, noise: MadeNoise, seed: string) {
  const normal = normalStream(seed);
  const truth = new Float64Array(intervals + 1);
  const flicker = noise.flickerFm ? flickerRates(intervals, noise.flickerFm, normal) : null;
  const walk = Math.sqrt(noise.randomWalkFm ?? 0);
  let rate = 0;
  for (let i = 0; i < intervals; i++) {
    let step = (noise.drift ?? 0) * (i + 0.5);
    if (noise.whiteFm) step += Math.sqrt(noise.whiteFm) * normal();
    if (flicker !== null) step += flicker[i]!;
    if (walk > 0) {
      // Integrated Brownian motion, exactly: w′ = w + √q·g₁, ∫ = (w + w′)/2 + √(q/12)·g₂.
      const next = rate + walk * normal();
      step += (rate + next) / 2 + (walk / Math.sqrt(12)) * normal();
      rate = next;
    }
    truth[i + 1] = truth[i]! + step;
  }
  const jitter = Math.sqrt(noise.measurement ?? 0);
  const [amplitude, frequency] = noise.beat ?? [0, 0];
  const phase = 2 * Math.PI * normal();
  const wander = noise.flickerPm ? flickerRates(intervals + 1, noise.flickerPm, normal, 1) : null;
  const measured = truth.map(
    (x, k) =>
      x +
      jitter * normal() +
      (wander?.[k] ?? 0) +
      amplitude * Math.cos(2 * Math.PI * frequency * k + phase),
  );
  return { truth, measured };
}
