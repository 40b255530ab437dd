import type { Beat, BeatFit } from "./find-beats.ts";
import type { NoiseModes } from "./noise-modes.ts";

/** The noise that stands beside that of the measurement in one hypothesis. */
export type SourceNoise = "none" | "white_fm" | "flicker_fm" | "random_walk_fm";

/** One hypothesis about the noise of a record, with what the record says about it. */
export interface NoiseHypothesis {
  readonly source: SourceNoise;
  /** Whether a linear drift of the rate is part of it. */
  readonly drift: boolean;
  /** Level of the source's noise over that of the measurement; dimensionless, >= 0. */
  readonly ratio: number;
  /** Measurement level (variance), best estimate under the hypothesis; square of the record's unit. */
  readonly level: number;
  readonly degreesOfFreedom: number;
  /** Probability given the record; dimensionless. */
  readonly probability: number;
  /** Beats in the time errors, which count as measurement noise; powers in the square of the record's unit. */
  readonly beats: readonly Beat[];
  /** Whether the source's noise is large enough to be seen in a record of this length. */
  readonly visible: boolean;
  /** Drift, best estimate; record's unit an interval, and 0 without drift. */
  readonly driftEstimate: number;
  /** Standard uncertainty of the drift for a measurement level of `level`. */
  readonly driftUncertainty: number;
}

const gridStep = 1.7;
/** Prior weight of measurement noise alone, against 1 for each kind of source noise on top of it. */
const priorForNone = 3;
/** Below this many intervals a record cannot tell the kinds of noise apart, and nothing is preferred. */
export const fewIntervals = 50;
/** Modes below which a drift cannot be told from noise. */
const leastForDrift = 6;

/**
 * Weighs noise hypotheses by their likelihood: measurement noise alone, and with white FM, flicker FM or
 * random-walk FM at every ratio of levels that a record of this length can show, each with and without a
 * linear drift. The level itself is integrated out, which gives Student's t.
 *
 *   p(ratio, type | w) ∝ prior · |C|^{−1/2} · (w′C⁻¹w)^{−n/2},  C = diag(a + ratio·b) + 2pp′
 *
 * Priors: the same for each kind of source noise, flat in log ratio; falling as the measurement's rms where
 * that noise is too small to be seen, so that what cannot be seen is not taken for absent. Measurement noise
 * alone has three times the weight, but in a short record, which cannot know, the same.
 *
 * @param modes - the record in its modes
 * @param beatFits - beats beside white PM alone, from findBeats of the same record; left out: none
 * @returns hypotheses with their probabilities, which add up to 1
 *
 * Source: own derivation; Harville, Biometrika 61, 383 (1974) for the likelihood of contrasts. Exact case:
 * with measurement noise only, Student's t with K − 1 degrees of freedom.
 */
export function noisePosterior(
  modes: NoiseModes,
  beatFits: readonly BeatFit[] = [],
): NoiseHypothesis[] {
  const found: { h: Omit<NoiseHypothesis, "probability">; log: number }[] = [];
  const total = modes.power.reduce((sum, p) => sum + p, 0);
  if (!(total > 0)) return [];
  const add = (
    source: SourceNoise,
    shape: Float64Array | null,
    ratio: number,
    log: number,
    visible: boolean,
  ) => {
    for (const { log: fit, ...rest } of likelihoods(modes, shape, ratio)) {
      found.push({ h: { source, ratio, visible, beats: [], ...rest }, log: fit + log });
    }
  };
  add("none", null, 0, Math.log(modes.intervals < fewIntervals ? 1 : priorForNone), true);
  const alone = found[0]!;
  for (const { beats, remainder } of beatFits) found.push(withBeats(alone, beats, remainder));
  const shapes: [SourceNoise, Float64Array | null][] = [
    ["white_fm", modes.whiteFm],
    ["flicker_fm", modes.flickerFm],
    ["random_walk_fm", modes.randomWalkFm],
  ];
  for (const [source, shape] of shapes) {
    if (shape === null) continue;
    const { ratios, visibleFrom, hiddenFrom } = ratioGrid(modes, shape);
    const prior = ratios.map((r) => (r <= hiddenFrom ? 1 : Math.sqrt(hiddenFrom / r)));
    const sum = prior.reduce((s, p) => s + p, 0);
    ratios.forEach((r, i) => {
      add(source, shape, r, Math.log(prior[i]! / sum), r >= visibleFrom);
    });
  }
  const best = found.reduce((most, f) => Math.max(most, f.log), Number.NEGATIVE_INFINITY);
  const weights = found.map((f) => Math.exp(f.log - best));
  const norm = weights.reduce((s, v) => s + v, 0);
  return found
    .map((f, i) => ({ ...f.h, probability: weights[i]! / norm }))
    .filter((f) => f.probability > 1e-7);
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
  return { h: { ...alone.h, level, degreesOfFreedom: left, beats }, log: alone.log + gain };
}

/** From ratios that no mode can show to ratios at which the measurement's noise shows in none. */
function ratioGrid(modes: NoiseModes, shape: Float64Array) {
  let least = Number.POSITIVE_INFINITY;
  let most = 0;
  for (let i = 0; i < shape.length; i++) {
    const equal = modes.measurement[i]! / shape[i]!;
    if (equal < least) least = equal;
    if (equal > most) most = equal;
  }
  const visibleFrom = 3 * least;
  const ratios: number[] = [];
  for (let r = least / 300; r < most * 1000; r *= gridStep) ratios.push(r);
  return { ratios, visibleFrom, hiddenFrom: most };
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

/** Without drift and with it: quadratic forms under C = diag(S) + 2pp′, by the Sherman-Morrison formula. */
function likelihoods(modes: NoiseModes, shape: Float64Array | null, ratio: number): Fit[] {
  const { count, power, measurement, edge2, edgePower, edgeDrift, drift2, driftPower, odd } = modes;
  let logDeterminant = 0;
  let q = 0;
  let oddPp = 0;
  let oddPw = 0;
  let evenPp = 0;
  let evenPw = 0;
  let dd = 0;
  let dw = 0;
  let oddPd = 0;
  let evenPd = 0;
  for (let i = 0; i < count.length; i++) {
    const s = measurement[i]! + (shape === null ? 0 : ratio * shape[i]!);
    const inverse = 1 / s;
    logDeterminant += count[i]! * Math.log(s);
    q += power[i]! * inverse;
    dd += drift2[i]! * inverse;
    dw += driftPower[i]! * inverse;
    if (odd[i] === 1) {
      oddPp += edge2[i]! * inverse;
      oddPw += edgePower[i]! * inverse;
      oddPd += edgeDrift[i]! * inverse;
    } else {
      evenPp += edge2[i]! * inverse;
      evenPw += edgePower[i]! * inverse;
      evenPd += edgeDrift[i]! * inverse;
    }
  }
  const oddGain = 2 / (1 + 2 * oddPp);
  const evenGain = 2 / (1 + 2 * evenPp);
  logDeterminant += Math.log1p(2 * oddPp) + Math.log1p(2 * evenPp);
  q -= oddGain * oddPw * oddPw + evenGain * evenPw * evenPw;
  const n = modes.degreesOfFreedom;
  const steady: Fit = {
    drift: false,
    log: -0.5 * (logDeterminant + n * Math.log(q)),
    level: q / n,
    degreesOfFreedom: n,
    driftEstimate: 0,
    driftUncertainty: 0,
  };
  if (n <= leastForDrift) return [steady];
  dd -= oddGain * oddPd * oddPd + evenGain * evenPd * evenPd;
  dw -= oddGain * oddPd * oddPw + evenGain * evenPd * evenPw;
  q -= (dw * dw) / dd;
  // A drift costs half a log n, as one more parameter does in the usual large-sample comparison.
  const drifting: Fit = {
    drift: true,
    log: -0.5 * (logDeterminant + n * Math.log(q) + Math.log(n)),
    level: q / (n - 1),
    degreesOfFreedom: n - 1,
    driftEstimate: dw / dd,
    driftUncertainty: Math.sqrt(q / (n - 1) / dd),
  };
  return [steady, drifting];
}
