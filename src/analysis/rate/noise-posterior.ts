import type { Beat, BeatFit } from "./find-beats.ts";
import { flickerPmEdges, type NoiseModes } from "./noise-modes.ts";
import { quadraticForms } from "./quadratic-forms.ts";

/** The noise that stands beside that of the measurement in one hypothesis. */
export type SourceNoise = "none" | "white_fm" | "flicker_fm" | "random_walk_fm";

/** One hypothesis about the noise of a record, with what the record says about it. */
export interface NoiseHypothesis {
  readonly source: SourceNoise;
  /** Whether a linear drift of the rate is part of it. */
  readonly drift: boolean;
  /** Level of the source's noise over that of the measurement; dimensionless, >= 0. */
  readonly ratio: number;
  /** Measurement level, best estimate under the hypothesis; square of the record's unit. */
  readonly level: number;
  /** Variance of the measurement's white PM, and level of its flicker PM, over `level`; dimensionless, >= 0. */
  readonly whitePm: number;
  readonly flickerPm: number;
  readonly degreesOfFreedom: number;
  /** Probability given the record; dimensionless. */
  readonly probability: number;
  /** Logarithm of the likelihood, the level integrated out, less a constant of the record; no prior in it. */
  readonly logLikelihood: number;
  /** Beats in the time errors, which count as measurement noise; powers in the square of the record's unit. */
  readonly beats: readonly Beat[];
  /**
   * Variance that rounding adds to the rate of each reading by itself, which counts as measurement noise; square of the
   * record's unit; left out where it adds none.
   */
  readonly rounding?: number;
  /** Whether the source's noise is large enough to be seen in a record of this length. */
  readonly visible: boolean;
  /** Drift, best estimate; record's unit an interval, and 0 without drift. */
  readonly driftEstimate: number;
  /** Standard uncertainty of the drift for a measurement level of `level`. */
  readonly driftUncertainty: number;
}

/** Steps of the grid of ratios; the coarse one for what is improbable beforehand. */
const gridStep = 1.7;
const coarseStep = 4;
/** Prior weight of white PM alone, against 1 for each kind of the source's noise on top of it. */
const priorForNone = 3;
/** Prior weight of flicker PM, alone or beside white PM, over that of white PM alone. */
const priorForFlickerPm = 1 / 3;
/** Prior weight of each kind of source noise beside flicker PM: together they imitate nearly every other noise. */
const priorBesideFlickerPm = 0.01;
/** Below this many intervals a record cannot tell the kinds of noise apart, and nothing is preferred. */
const fewIntervals = 50;
/** Modes below which a drift cannot be told from noise. */
const leastForDrift = 6;

/** The measurement's noise of unit level: its power in each mode, and what each of the two end edges adds. */
interface Jitter {
  readonly whitePm: number;
  readonly flickerPm: number;
  readonly power: Float64Array;
  readonly edges: number;
}

/**
 * Weighs noise hypotheses by their likelihood: the measurement's noise is white PM, or flicker PM, or both; alone,
 * and with white FM, flicker FM or random-walk FM of the source at every ratio of levels that a record of this
 * length can show (beside one kind of PM); each with and without a linear drift. The level itself is integrated
 * out, which gives Student's t.
 *
 *   p(ratio, type | w) ∝ prior · |C|^{−1/2} · (w′C⁻¹w)^{−n/2},  C = diag(a + ratio·b) + e·pp′
 *
 * Priors: the same for each kind of source noise, flat in log ratio; falling as the measurement's rms where
 * that noise is too small to be seen, so that what cannot be seen is not taken for absent. White PM
 * alone has three times the weight, but in a short record, which cannot know, the same. Flicker PM has a third of white
 * PM's: jitter of thresholds, triggers and resolution is white, and only what multiplies or amplifies a tone adds it.
 *
 * @param modes - the record in its modes
 * @param beatFits - beats beside white PM alone, from findBeats of the same record; left out: none
 * @returns hypotheses with their probabilities, which add up to 1
 *
 * Source: own derivation; Harville, Biometrika 61, 383 (1974) for the likelihood of contrasts. Exact case:
 * with white PM only, Student's t with K − 1 degrees of freedom.
 */
export function noisePosterior(
  modes: NoiseModes,
  beatFits: readonly BeatFit[] = [],
): NoiseHypothesis[] {
  const found: { h: Omit<NoiseHypothesis, "probability">; log: number }[] = [];
  const total = modes.power.reduce((sum, p) => sum + p, 0);
  if (!(total > 0)) return [];
  const add = (
    jitter: Jitter,
    source: SourceNoise,
    shape: Float64Array | null,
    ratio: number,
    log: number,
    visible: boolean,
  ) => {
    const { whitePm, flickerPm } = jitter;
    for (const { log: fit, ...rest } of likelihoods(modes, jitter, shape, ratio)) {
      const logLikelihood = fit;
      const h = { source, ratio, whitePm, flickerPm, visible, beats: [], logLikelihood, ...rest };
      found.push({ h, log: fit + log });
    }
  };
  const white: Jitter = { whitePm: 1, flickerPm: 0, power: modes.measurement, edges: 2 };
  const alonePrior = modes.intervals < fewIntervals ? 1 : priorForNone;
  add(white, "none", null, 0, Math.log(alonePrior), true);
  const alone = found[0]!;
  for (const { beats, remainder } of beatFits) found.push(withBeats(alone, beats, remainder));
  const jitters = [{ jitter: white, weight: 1, step: gridStep }];
  if (modes.flickerPm !== null) {
    for (const { ratio, prior } of ratioGrid(white.power, modes.flickerPm, gridStep)) {
      const weight = alonePrior * priorForFlickerPm * prior;
      add(mixed(white, modes.flickerPm, ratio), "none", null, 0, Math.log(weight), true);
    }
    const flicker = { whitePm: 0, flickerPm: 1, power: modes.flickerPm, edges: flickerPmEdges };
    jitters.push({ jitter: flicker, weight: priorBesideFlickerPm, step: coarseStep });
  }
  const shapes: [SourceNoise, Float64Array | null][] = [
    ["white_fm", modes.whiteFm],
    ["flicker_fm", modes.flickerFm],
    ["random_walk_fm", modes.randomWalkFm],
  ];
  for (const { jitter, weight, step } of jitters) {
    for (const [source, shape] of shapes) {
      if (shape === null) continue;
      for (const { ratio, prior, visible } of ratioGrid(jitter.power, shape, step)) {
        add(jitter, source, shape, ratio, Math.log(weight * prior), visible);
      }
    }
  }
  const best = found.reduce((most, f) => Math.max(most, f.log), Number.NEGATIVE_INFINITY);
  const weights = found.map((f) => Math.exp(f.log - best));
  const norm = weights.reduce((s, v) => s + v, 0);
  return found
    .map((f, i) => ({ ...f.h, probability: weights[i]! / norm }))
    .filter((f) => f.probability > 1e-7);
}

function mixed(white: Jitter, flicker: Float64Array, ratio: number): Jitter {
  const power = white.power.map((p, i) => p + ratio * flicker[i]!);
  return { whitePm: 1, flickerPm: ratio, power, edges: white.edges + ratio * flickerPmEdges };
}

/** White PM and beats: a sum of squares so much smaller, for three parameters a beat. */
function withBeats(
  alone: { h: Omit<NoiseHypothesis, "probability">; log: number },
  beats: readonly Beat[],
  remainder: number,
) {
  const n = alone.h.degreesOfFreedom;
  const left = Math.max(1, n - 3 * beats.length);
  const level = (alone.h.level * n * remainder) / left;
  const gain = -0.5 * (n * Math.log(remainder) + 5 * beats.length * Math.log(n));
  const logLikelihood = alone.h.logLikelihood + gain;
  return {
    h: { ...alone.h, level, degreesOfFreedom: left, beats, logLikelihood },
    log: alone.log + gain,
  };
}

/** From ratios that no mode can show to ratios at which the measurement's noise shows in none. */
function ratioGrid(power: Float64Array, shape: Float64Array, step: number) {
  let least = Number.POSITIVE_INFINITY;
  let most = 0;
  for (let i = 0; i < shape.length; i++) {
    const equal = power[i]! / shape[i]!;
    if (equal < least) least = equal;
    if (equal > most) most = equal;
  }
  const grid: { ratio: number; prior: number; visible: boolean }[] = [];
  let sum = 0;
  for (let ratio = least / 300; ratio < most * 1000; ratio *= step) {
    const prior = ratio <= most ? 1 : Math.sqrt(most / ratio);
    grid.push({ ratio, prior, visible: ratio >= 3 * least });
    sum += prior;
  }
  return grid.map((g) => ({ ...g, prior: g.prior / sum }));
}

/** One fit of a hypothesis, and the logarithm of its marginal likelihood. */
interface Fit {
  readonly drift: boolean;
  readonly log: number;
  readonly level: number;
  readonly degreesOfFreedom: number;
  readonly driftEstimate: number;
  readonly driftUncertainty: number;
}

/** Without drift and with it. */
function likelihoods(
  modes: NoiseModes,
  jitter: Jitter,
  shape: Float64Array | null,
  ratio: number,
): Fit[] {
  const spectrum =
    shape === null ? jitter.power : jitter.power.map((s, i) => s + ratio * shape[i]!);
  const { logDeterminant, record, drift, both } = quadraticForms(modes, spectrum, jitter.edges);
  const n = modes.degreesOfFreedom;
  const steady: Fit = {
    drift: false,
    log: -0.5 * (logDeterminant + n * Math.log(record)),
    level: record / n,
    degreesOfFreedom: n,
    driftEstimate: 0,
    driftUncertainty: 0,
  };
  if (n <= leastForDrift) return [steady];
  const rest = record - (both * both) / drift;
  // A drift costs half a log n, as one more parameter does in the usual large-sample comparison.
  const drifting: Fit = {
    drift: true,
    log: -0.5 * (logDeterminant + n * Math.log(rest) + Math.log(n)),
    level: rest / (n - 1),
    degreesOfFreedom: n - 1,
    driftEstimate: both / drift,
    driftUncertainty: Math.sqrt(rest / (n - 1) / drift),
  };
  return [steady, drifting];
}
