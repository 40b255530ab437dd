import { flickerPmInRecord } from "./flicker-pm.ts";
import type { SourceNoise } from "./noise-posterior.ts";
import type { NoiseRecord } from "./noise-record.ts";

/** What the record says about its noise, in units that people use. */
export interface NoiseFound {
  /** Probability of each kind of source noise beside the measurement's; dimensionless, they add up to 1. */
  readonly probability: Readonly<Record<SourceNoise, number>>;
  /** Probability that the rate drifts steadily; dimensionless. */
  readonly drift: number;
  /** rms time error of one edge; s; NaN for readings with dead time and where nothing is known. */
  readonly edgeJitter: number;
  /** Of one reading's rate, by counter and white FM together; dimensionless; NaN where edges tell it. */
  readonly readingDeviation: number;
  /** Allan deviation of the most likely source noise at one interval; dimensionless; 0 for none. */
  readonly sourceDeviation: number;
  readonly source: SourceNoise;
  /** Beats in the time errors, of the likeliest hypothesis that has any with even odds: frequency Hz, rms s. */
  readonly beats: readonly { readonly frequency: number; readonly rms: number }[];
  /** Interval to which they belong; s. */
  readonly interval: number;
}

/**
 * Sums up the noise hypotheses of a record.
 *
 * @param noise - from noiseRecord
 * @returns probabilities, and levels averaged over the hypotheses of the likeliest kind
 *
 * Source: own derivation. Exact case: white PM alone gives source "none" and its rms as edge jitter.
 */
export function describeNoise(noise: NoiseRecord): NoiseFound {
  const probability: Record<SourceNoise, number> = {
    none: 0,
    white_fm: 0,
    flicker_fm: 0,
    random_walk_fm: 0,
  };
  let drift = 0;
  let level = 0;
  for (const h of noise.hypotheses) {
    probability[h.source] += h.probability;
    if (h.drift) drift += h.probability;
    const jitter = h.level * (h.whitePm + h.flickerPm * flickerPmInRecord(noise.intervals));
    level += h.probability * h.beats.reduce((sum, b) => sum + b.power, jitter);
  }
  const source = (Object.keys(probability) as SourceNoise[]).reduce((best, s) =>
    probability[s] > probability[best] ? s : best,
  );
  const atOne = { none: 0, white_fm: 1, flicker_fm: 2 * Math.LN2, random_walk_fm: 1 / 3 }[source];
  const variance = noise.hypotheses
    .filter((h) => h.source === source)
    .reduce((sum, h) => sum + h.probability * h.level * h.ratio * atOne, 0);
  const known = noise.hypotheses.length > 0;
  const deviation = known ? Math.sqrt(level) : Number.NaN;
  return {
    probability,
    drift,
    edgeJitter: noise.independent ? Number.NaN : deviation * noise.interval,
    readingDeviation: noise.independent ? deviation : Number.NaN,
    sourceDeviation: known ? Math.sqrt(variance / probability[source]) : Number.NaN,
    source,
    beats: beatsOf(noise),
    interval: noise.interval,
  };
}

function beatsOf(noise: NoiseRecord) {
  const beating = noise.hypotheses.filter((h) => h.beats.length > 0);
  if (!(beating.reduce((sum, h) => sum + h.probability, 0) > 0.5)) return [];
  const likeliest = beating.reduce((best, h) => (h.probability > best.probability ? h : best));
  return likeliest.beats.map((b) => ({
    frequency: b.frequency / noise.interval,
    rms: Math.sqrt(b.power) * noise.interval,
  }));
}
