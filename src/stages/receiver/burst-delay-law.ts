import { amplitudeNodes } from "./amplitude-nodes.ts";
import { betweenPhases } from "./between-phases.ts";
import { PassageKernel } from "./passage-kernel.ts";
import type { ReceivedTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";
import { RectifiedTone } from "./rectified-tone.ts";

/** The law of the delay of bursts that come after a long silence, for start phases on a grid. */
export interface BurstDelayLaw {
  /** Period of the rectified tone; s. */
  readonly period: number;
  /** Periods of the rectified tone in a cycle. */
  readonly periodsPerCycle: number;
  /** Knots in a period. */
  readonly perPeriod: number;
  /** For each start phase k/n of a period, k = 0, …, n − 1; n = 1 where the tone is locked to the burst. */
  readonly starts: readonly StartLaw[];
}

/** The law of bursts that begin at one phase. */
export interface StartLaw {
  /** Knots from the start of the period the burst begins in to the first one with a weight. */
  readonly firstKnot: number;
  /** Weights of this knot and those after it: the density there, straight in between; any unit. */
  readonly weights: Float64Array;
}

/** Start phases of a free tone that are computed, and into how many each step between them is divided. */
const computedPhases = 16;
const division = 4;

/** Fewest and most knots in a period, most in a burst. */
const fewest = 32;
const mostPerPeriod = 64;
const mostPerBurst = 10_000;

/** Most products of a density and a kernel, half a nanosecond each, were every amplitude as slow as the weakest. */
const mostWork = 2e8;

/** The amplitude's Gaussian is cut off here; standard deviations. */
const amplitudeCut = 6;

/** Standard deviations of the noise that count as out of reach. */
const outOfReach = 8.5;

/** Shares of bursts below this are cut off at the ends of a law. */
const negligible = 1e-12;

/**
 * The law of the delay of a burst after a long silence, over noise and amplitude, where it is smooth enough
 * to be computed once and for all.
 *
 * The first-passage density (`PassageKernel`) from each start phase, averaged over the amplitude's Gaussian
 * (`amplitudeNodes`); between the phases computed by `betweenPhases`. Knots lie closer than a third of the time in
 * which the threshold crosses what the noise does in one period,
 *
 *   Δt ≤ τ·noise_v·√(2T/τ)/(3·(A − θ)),
 *
 * since that is how sharply a crest of the tone cuts off those it leaves over.
 *
 * @param receiver - the detector
 * @param tone - the tone and the burst
 * @param isLocked - whether every burst begins at phase zero: one start phase is enough
 * @returns the law of bursts that make their step; null without noise, where a burst could make its step within a
 *   period of the tone or its amplitude is below the threshold, and where knots would lie too close or the law would
 *   cost more than a fraction of a second
 *
 * Source: Buonocore, Nobile, Ricciardi 1987 (see `PassageKernel`); rule for the knots: own, from the
 * convergence of mean and spread (1e-4 of the spread).
 */
export function burstDelayLaw(
  receiver: ReceiverParameters,
  tone: ReceivedTone,
  isLocked: boolean,
): BurstDelayLaw | null {
  const rectified = new RectifiedTone(
    receiver,
    tone.carrierHz * (1 + tone.carrierFractionalOffset),
  );
  const perPeriod = knotsPerPeriod(receiver, tone, rectified);
  if (perPeriod === 0) return null;
  const { period, periodsPerCycle } = rectified;
  const phases = isLocked ? 1 : computedPhases;
  const nodes = amplitudeNodes(receiver, tone, amplitudeCut);
  const density = new Float64Array(Math.floor((tone.burst / period) * perPeriod));
  const kernelOf = (amplitudeV: number) =>
    new PassageKernel(receiver, rectified, amplitudeV, perPeriod, 0, density.length);
  const slowest = kernelOf(nodes[0]!.amplitudeV);
  if (slowest.density(0, density) * slowest.lags * nodes.length * phases > mostWork) return null;
  const sums = Array.from({ length: phases }, () => new Float64Array(density.length + perPeriod));
  let last = 0;
  for (const { weight, amplitudeV } of nodes) {
    const kernel = kernelOf(amplitudeV);
    sums.forEach((sum, k) => {
      const start = (k * perPeriod) / phases;
      const filled = kernel.density(start, density, negligible / weight);
      // Between the crests the computed density is zero but for rounding, of either sign.
      for (let i = 0, knot = start + 1; i < filled; i++, knot++) {
        sum[knot] = sum[knot]! + weight * Math.max(0, density[i]!);
      }
      last = Math.max(last, start + filled);
    });
  }
  const reached = sums.map((sum) => sum.subarray(0, last + 1 + perPeriod));
  const laws = isLocked ? reached : betweenPhases(reached, perPeriod, division);
  return { period, periodsPerCycle, perPeriod, starts: laws.map(trimmed) };
}

/** Knots that a period needs; 0 where the law is to be left to the detector. */
function knotsPerPeriod(
  receiver: ReceiverParameters,
  tone: ReceivedTone,
  rectified: RectifiedTone,
): number {
  const { noiseV: noise, thresholdV: threshold, timeConstant: tau, leak } = receiver;
  const { ratio, period } = rectified;
  const approach = (tone.amplitudeV - (leak ? threshold : 0)) / tau;
  if (noise === 0 || !(approach > 0)) return 0;
  const largest = tone.amplitudeV * (1 + amplitudeCut * tone.amplitudeNoise);
  const early = largest * ratio + outOfReach * noise * Math.max(1, Math.sqrt(2 * ratio));
  if (early > threshold) return 0;
  const sharpness = (noise * Math.sqrt(2 * ratio)) / approach;
  let perPeriod = fewest;
  while (perPeriod < (3 * period) / sharpness) perPeriod *= 2;
  return perPeriod > mostPerPeriod || (tone.burst / period) * perPeriod > mostPerBurst
    ? 0
    : perPeriod;
}

/** The knots that count. */
function trimmed(sum: Float64Array): StartLaw {
  const least = negligible * sum.reduce((a, b) => a + b, 0);
  const counts = (value: number) => value > least;
  const firstKnot = sum.findIndex(counts);
  return { firstKnot, weights: sum.slice(firstKnot, sum.findLastIndex(counts) + 1) };
}
