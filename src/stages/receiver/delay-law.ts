import { normalCdf } from "../../numeric/index.ts";
import { amplitudeNodes } from "./amplitude-nodes.ts";
import { type BurstPlan, burstPlan } from "./burst-grid.ts";
import { BurstPaths } from "./burst-path.ts";
import { chargeLeft, timeToForget } from "./charge-left.ts";
import { fillFrozen } from "./frozen-density.ts";
import { integratorOf } from "./integrator.ts";
import { type BurstChance, missBound, missProbability } from "./miss-probability.ts";
import { PassageDensity } from "./passage-density.ts";
import { burstLength, type DrivenTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";

/** The amplitude's Gaussian is cut off here; standard deviations. */
const amplitudeCut = 6;

/** Shares of bursts with a step: below this there is no delay to speak of. */
const silent = 1e-3;

/** A share of all bursts that nobody misses. */
const lost = 1e-14;

/** A miss probability bounded below this needs no closer look. */
const negligible = 1e-12;

/** From here on the share of bursts without a step is known best from the law itself. */
const plain = 0.01;

/** Law of the delay of bursts that begin at one phase. */
export interface PhaseLaw {
  /** Probability of a step at points 0, 1, 2, … after the start, straight in between; the rest are missed or blocked. */
  readonly shares: Float64Array;
  /** Their sum; mean of the delay, s; and its variance, s²; both 0 where hardly a burst makes a step. */
  readonly share: number;
  readonly mean: number;
  readonly variance: number;
}

/**
 * The one law of the delay: for a burst of whatever envelope, rectifier, leak, noise and start phase, with the charge
 * that the bursts before have left, when it makes its step, and whether. All that is asked of the delay comes from it;
 * it is computed when it is first asked for.
 *
 * At each start phase and amplitude the first-passage density (`PassageDensity`), averaged over the amplitude's Gaussian
 * by the trapezoid rule, which converges geometrically for it; where the noise hardly moves during the approach, and
 * without noise, the closed form of the charge (`fillFrozen`).
 *
 * Good to 1e-3 of the mean and 1e-2 of the standard deviation (half wave with less than ten cycles in the time constant:
 * 5e-3 and 2e-2).
 */
export class DelayLaw {
  readonly plan: BurstPlan;
  private readonly paths: BurstPaths;
  private readonly chance: BurstChance;
  private knownPhases: readonly PhaseLaw[] | null = null;
  private knownMisses: number | null = null;

  /**
   * @param receiver - the detector
   * @param tone - the tone and the burst
   * @param burstPeriod - time from burst to burst, for the charge that they leave; s. Infinity: a single burst
   * @throws RangeError if the period of the rectified tone exceeds a hundred time constants
   */
  constructor(receiver: ReceiverParameters, tone: DrivenTone, burstPeriod: number) {
    const { noise, keeps } = integratorOf(receiver, tone);
    const left = chargeLeft(receiver, tone, burstPeriod);
    const { thresholdV: threshold } = receiver;
    const { amplitudeV: amplitude, amplitudeNoise: relative } = tone;
    const level = { threshold, amplitude, relative, noise };
    const startAt = (phaseTurns: number) => {
      const { mean, variance } = left(phaseTurns);
      const own = keeps ? noise * noise : 0;
      return { mean: amplitude * mean, variance: own + amplitude * amplitude * variance };
    };
    const isFree = tone.carrierLock === "free";
    this.chance = { receiver, tone, level, startAt, isFree };
    this.plan = burstPlan(
      receiver,
      tone,
      level,
      startAt(0),
      amplitudeNodes(receiver, tone, amplitudeCut).length,
      isFree,
    );
    this.paths = new BurstPaths(receiver, tone, this.plan.tone, this.plan, this.plan.until);
  }

  /** The law at start phases evenly over a period of the rectified tone; one where every burst begins at phase zero. */
  get phases(): readonly PhaseLaw[] {
    this.knownPhases ??= this.plan.isFrozen ? this.frozen() : this.passages();
    return this.knownPhases;
  }

  /** Mean delay of a burst that makes its step; s, NaN where none does. */
  get meanDelay(): number {
    return this.average(({ mean }) => mean);
  }

  /** Standard deviation of the same; s. */
  get rmsDelay(): number {
    const centre = this.meanDelay;
    return Math.sqrt(
      this.average(({ mean, variance }) => variance + (mean - centre) * (mean - centre)),
    );
  }

  /** Probability that a burst begins above the threshold, and so makes no step. */
  get blockedProbability(): number {
    const { level, startAt } = this.chance;
    const count = this.plan.phases;
    let sum = 0;
    for (let k = 0; k < count; k++) {
      const { mean, variance } = startAt(k / count / this.plan.tone.periodsPerCycle);
      sum += normalCdf((mean - level.threshold) / Math.sqrt(variance + 1e-300));
    }
    return sum / count;
  }

  /** Probability that a burst ends uncrossed; some 10 % of itself, and an upper bound, where below a hundredth. */
  get missProbability(): number {
    this.knownMisses ??= this.misses();
    return this.knownMisses;
  }

  /** The same without the law at all phases: what a search for a small probability asks for. */
  get smallMissProbability(): number {
    return this.missesAmong(this.plan.phases);
  }

  /** The same, looking at so many start phases at most. */
  missesAmong(phases: number): number {
    const bound = missBound(this.chance, this.plan, this.paths, phases);
    if (bound < negligible || this.plan.isFrozen) return bound;
    return Math.min(bound, missProbability(this.chance, this.paths));
  }

  /** Mean delays and their variances (s, s²) at phases evenly over a turn of the tone; the overall mean where no burst makes a step. */
  get byPhase(): { readonly mean: Float64Array; readonly variance: Float64Array } {
    const total = this.meanDelay;
    const { phases } = this;
    const count = phases.length === 1 ? 1 : phases.length * this.plan.tone.periodsPerCycle;
    const at = (k: number) => phases[k % phases.length]!;
    return {
      mean: Float64Array.from({ length: count }, (_, k) =>
        at(k).share >= silent ? at(k).mean : total,
      ),
      variance: Float64Array.from({ length: count }, (_, k) => at(k).variance),
    };
  }

  private misses(): number {
    const small = this.smallMissProbability;
    if (small < plain || this.plan.isFrozen) return small;
    const shares = this.phases.reduce((sum, { share }) => sum + share, 0) / this.phases.length;
    return Math.max(0, 1 - this.blockedProbability - shares);
  }

  private average(of: (law: PhaseLaw) => number): number {
    let weight = 0;
    let sum = 0;
    for (const law of this.phases) {
      if (law.share < silent) continue;
      weight += law.share;
      sum += law.share * of(law);
    }
    return sum / weight;
  }

  private nodes() {
    const { receiver, tone } = this.chance;
    return amplitudeNodes(receiver, tone, amplitudeCut, this.plan.isHovering ? 0.5 : 1);
  }

  private frozen(): PhaseLaw[] {
    const { level, startAt } = this.chance;
    const { plan, paths } = this;
    return Array.from({ length: plan.phases }, (_, k) => {
      const shares = new Float64Array(paths.steps + 1);
      const start = startAt(k / plan.phases / plan.tone.periodsPerCycle);
      fillFrozen(paths, paths.from((k * plan.rows) / plan.phases), level, start, shares);
      return phaseLaw(shares, plan.step);
    });
  }

  private passages(): PhaseLaw[] {
    const { level, startAt } = this.chance;
    const { plan, paths } = this;
    const { noise, timeConstant } = plan.tone.integrator;
    const starts = Array.from({ length: plan.phases }, (_, k) => ({
      path: paths.from((k * plan.rows) / plan.phases),
      start: startAt(k / plan.phases / plan.tone.periodsPerCycle),
      shares: new Float64Array(paths.steps + 1),
    }));
    const density = new PassageDensity(paths, level.threshold, noise, timeConstant);
    const one = new Float64Array(paths.steps + 1);
    for (const { weight, amplitudeV } of this.nodes()) {
      density.setAmplitude(amplitudeV);
      for (const { path, start, shares } of starts) {
        const filled = density.fill(path, start, one, lost / weight, (10 * lost) / weight);
        // Between the crests the computed density is zero but for rounding, of either sign.
        for (let i = 0; i < filled; i++) shares[i] = shares[i]! + weight * Math.max(0, one[i]!);
      }
    }
    return starts.map(({ shares }) => phaseLaw(shares, plan.step));
  }
}

/** A law with its moments; silent where hardly a burst makes a step. */
function phaseLaw(shares: Float64Array, step: number): PhaseLaw {
  let share = 0;
  let first = 0;
  let second = 0;
  shares.forEach((weight, i) => {
    share += weight;
    first += weight * i;
    second += weight * i * i;
  });
  if (share < silent) return { shares, share, mean: 0, variance: 0 };
  const mean = first / share;
  const variance = Math.max(0, second / share - mean * mean);
  return { shares, share, mean: mean * step, variance: variance * step * step };
}

/** Laws last asked for, by what they follow from: runs of an ensemble come to a worker with copies of one scenario. */
const known = new Map<string, DelayLaw>();
const mostKnown = 8;

/**
 * The law of the delay of a receiver and its bursts; the same one whoever asks.
 *
 * @param receiver - the detector
 * @param tone - the tone and the burst
 * @param burstPeriod - time from burst to burst; s
 * @returns the law
 * @throws RangeError as `DelayLaw`
 */
export function delayLaw(
  receiver: ReceiverParameters,
  tone: DrivenTone,
  burstPeriod: number,
): DelayLaw {
  // Where nothing is left of a burst it does not matter when it was.
  const silence = burstPeriod - burstLength(tone);
  const isForgotten = timeToForget(receiver, tone.amplitudeV) <= silence;
  const period = isForgotten ? Number.POSITIVE_INFINITY : burstPeriod;
  const key = JSON.stringify([receiver, tone, isForgotten ? "" : burstPeriod]);
  let law = known.get(key);
  if (law === undefined) {
    law = new DelayLaw(receiver, tone, period);
    const [oldest] = known.keys();
    if (known.size >= mostKnown) known.delete(oldest!);
    known.set(key, law);
  }
  return law;
}
