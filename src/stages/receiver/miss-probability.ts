import { normalCdf, normalQuantile } from "../../numeric/index.ts";
import { burstGrid } from "./burst-grid.ts";
import { chargeReach } from "./charge-reach.ts";
import { PassageKernel } from "./passage-kernel.ts";
import type { ReceivedTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";
import { RectifiedTone } from "./rectified-tone.ts";

/** Phases of a turn over which the reach of a burst is averaged. */
const phases = 32;

/** Amplitudes at which the passage is computed, and how far they lie from where the mean just reaches, in σ. */
const nodes = 14;
const nodesBelow = 4;
const nodesAbove = 9;

/** Below this survival the rest of the burst is extrapolated. */
const extrapolated = 0.02;

/** A burst that asks for more steps than this is treated as one with frozen noise. */
const mostSteps = 4000;

/** Time constants after which the mean charge and the law of the survivors have settled to 1e-4. */
const settledAfter = 10;

/** Probabilities below this count as this. */
const least = 1e-300;

/**
 * Probability that a burst ends without a step, as a function of its amplitude and of the amplitude's noise.
 *
 * With noise: the first-passage density at fourteen amplitudes about that whose mean charge just reaches
 * the threshold; what survives the burst as a normal quantile, straight between them; below a survival of
 * 0.02 the survival falls on, period by period, as in the last period computed, which is an upper bound,
 * since the charge still rises (and exact once it has settled). The amplitude's Gaussian is integrated over
 * that. Without noise: the share of phases, and of amplitudes, whose charge does not reach.
 */
export class MissProbability {
  private readonly receiver: ReceiverParameters;
  private readonly reach: Float64Array;
  private readonly leastReach: number;
  /** Standard deviation of the noise at the end of the burst; V. */
  private readonly deviation: number;
  private readonly tone: ReceivedTone;
  private readonly rectified: RectifiedTone;
  /** Whether the noise is so small that it is but a spread of the threshold. */
  private readonly isFrozen: boolean;
  private lowest = 0;
  private spacing = 0;
  private quantiles: Float64Array | null = null;

  /**
   * @param receiver - the detector
   * @param tone - the tone and the burst; its amplitude and amplitude noise do not matter here
   * @param isLocked - whether every burst begins at phase zero
   */
  constructor(receiver: ReceiverParameters, tone: ReceivedTone, isLocked: boolean) {
    this.receiver = receiver;
    this.tone = tone;
    this.reach = new Float64Array(isLocked ? 1 : phases);
    for (let k = 0; k < this.reach.length; k++) {
      this.reach[k] = chargeReach(receiver, tone, k / phases);
    }
    this.leastReach = this.reach.reduce((a, b) => Math.min(a, b));
    this.rectified = new RectifiedTone(
      receiver,
      tone.carrierHz * (1 + tone.carrierFractionalOffset),
    );
    const critical = { ...tone, amplitudeV: this.justReaching };
    const grid = receiver.noiseV > 0 ? burstGrid(receiver, critical, this.rectified) : null;
    this.isFrozen = grid === null || grid.isFrozen || tone.burst > mostSteps * grid.step;
    const growing = Math.sqrt((2 * tone.burst) / receiver.timeConstant);
    this.deviation = receiver.noiseV * (receiver.leak ? 1 : growing);
  }

  /** Amplitude whose mean charge just reaches the threshold, at the worst phase; V. */
  get justReaching(): number {
    return this.receiver.thresholdV / this.leastReach;
  }

  /**
   * An upper bound without any integration: no step needs u below the threshold at the highest charge.
   *
   *   Φ((θ − A·κ)/√(σ² + (A·κ·relative)²))
   *
   * @param amplitude - A; V
   * @param relative - relative rms of the amplitude; ≥ 0
   * @returns bound of the probability
   */
  bound(amplitude: number, relative: number): number {
    const charge = amplitude * this.leastReach;
    const spread = Math.sqrt(
      this.deviation * this.deviation + charge * relative * charge * relative,
    );
    return spread > 0
      ? normalCdf((this.receiver.thresholdV - charge) / spread)
      : Number(charge < this.receiver.thresholdV);
  }

  /**
   * The probability.
   *
   * @param amplitude - A; V, > 0
   * @param relative - relative rms of the amplitude; ≥ 0
   * @returns probability of no step; some 10 % of itself, an upper bound where small
   */
  at(amplitude: number, relative: number): number {
    if (this.isFrozen) {
      const noise = this.deviation / this.receiver.thresholdV;
      return this.withoutNoise(amplitude, Math.sqrt(relative * relative + noise * noise));
    }
    if (relative === 0) return this.given(amplitude);
    const spread = amplitude * relative;
    const from = Math.max(this.lowestNode() - amplitude, -9 * spread) / spread;
    // Below the lowest node all bursts are missed.
    let sum = normalCdf((this.lowestNode() - amplitude) / spread);
    const steps = 400;
    const step = (9 - from) / steps;
    if (!(step > 0)) return Math.min(1, sum);
    for (let i = 0; i < steps; i++) {
      const a = normalCdf(from + i * step);
      const b = normalCdf(from + (i + 1) * step);
      // In the lower tail the difference is exact; in the upper one it is taken from the other side.
      const weight =
        from + i * step < 0
          ? b - a
          : normalCdf(-from - i * step) - normalCdf(-from - (i + 1) * step);
      sum += weight * this.given(amplitude + spread * (from + (i + 0.5) * step));
    }
    return Math.min(1, sum);
  }

  /** Share of phases and amplitudes out of reach. */
  private withoutNoise(amplitude: number, relative: number): number {
    let sum = 0;
    for (const reach of this.reach) {
      const short = this.receiver.thresholdV / reach / amplitude - 1;
      sum += relative > 0 ? normalCdf(short / relative) : Number(short > 0);
    }
    return sum / this.reach.length;
  }

  private lowestNode(): number {
    if (this.quantiles === null) this.fillNodes();
    return this.lowest;
  }

  /** Probability at one amplitude, from the nodes. */
  private given(amplitude: number): number {
    const at = (amplitude - this.lowestNode()) / this.spacing;
    const quantiles = this.quantiles!;
    if (at < 0) return 1;
    const k = Math.min(Math.floor(at), nodes - 2);
    const q = quantiles[k]! + (at - k) * (quantiles[k + 1]! - quantiles[k]!);
    return normalCdf(q);
  }

  private fillNodes(): void {
    const critical = this.justReaching;
    const unit = this.deviation / this.leastReach;
    this.lowest = Math.max(0.05 * critical, critical - nodesBelow * unit);
    this.spacing = (critical + nodesAbove * unit - this.lowest) / (nodes - 1);
    this.quantiles = new Float64Array(nodes);
    for (let k = 0; k < nodes; k++) {
      const amplitude = this.lowest + k * this.spacing;
      const survival = Math.min(this.survival(amplitude), this.bound(amplitude, 0));
      this.quantiles[k] = normalQuantile(Math.max(least, Math.min(survival, 1 - 1e-15)));
    }
  }

  /** Survival of a burst of one amplitude, averaged over start phases. */
  private survival(amplitude: number): number {
    const receiver = this.receiver;
    const tone = { ...this.tone, amplitudeV: amplitude };
    const rectified = this.rectified;
    const grid = burstGrid(receiver, tone, rectified);
    const steps = Math.floor(tone.burst / grid.step);
    // After so many time constants survival falls by the same factor in every period.
    const settled = receiver.leak ? settledAfter * receiver.timeConstant : tone.burst;
    const computed = Math.min(steps, Math.ceil(settled / grid.step));
    const kernel = new PassageKernel(
      receiver,
      rectified,
      amplitude,
      grid.perPeriod,
      grid.step,
      computed,
    );
    const density = new Float64Array(computed);
    const isLong = tone.burst > 20 * rectified.period || this.reach.length === 1;
    const starts = grid.perPeriod === 0 || isLong ? 1 : 8;
    let sum = 0;
    for (let k = 0; k < starts; k++) {
      const start = Math.round((k * kernel.perPeriod) / starts);
      const filled = kernel.density(start, density, extrapolated);
      sum += survivalOf(density, filled, steps, grid.step, kernel.perPeriod);
    }
    return sum / starts;
  }
}

/**
 * What a burst of so many steps leaves over, where the density of the first `filled` is known; the rest is
 * extrapolated by the fall of the survival in the last period computed.
 */
function survivalOf(
  g: Float64Array,
  filled: number,
  steps: number,
  step: number,
  perPeriod: number,
): number {
  let survival = 1;
  let before = 1;
  for (let i = 0; i < filled; i++) {
    survival -= g[i]! * step;
    if ((i + 1) % perPeriod !== 0) continue;
    const isLast = filled < steps && i + perPeriod >= filled;
    if (survival < extrapolated || isLast) {
      let rest = Math.max(survival, least);
      const fall = Math.min(1, rest / before);
      for (let j = i + perPeriod; j < steps && rest > least; j += perPeriod) rest *= fall;
      return rest;
    }
    before = survival;
  }
  return Math.max(survival, least);
}
