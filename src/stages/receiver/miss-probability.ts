import { normalCdf, normalQuantile, pow } from "../../numeric/index.ts";
import { type BurstPlan, burstPlan } from "./burst-grid.ts";
import { BurstPaths } from "./burst-path.ts";
import { type BurstLevel, fillFrozen } from "./frozen-density.ts";
import { type BurstStart, PassageDensity } from "./passage-density.ts";
import { burstLength, type ReceivedTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";

/** Phases of a period over which the nearest approach is averaged, and the survival where a burst has few periods. */
const phases = 16;
const survivalPhases = 8;
const fewPeriods = 20;

/** Below this survival the rest of the burst is extrapolated. */
const extrapolated = 0.02;

/** Probabilities below this count as this, and above one less a little as that. */
const least = 1e-300;
const most = 1 - 1e-15;

/** Weakest amplitude looked at, as a part of the usual one, and the deviation that nothing lies beyond. */
const weakest = 0.02;
const farthest = 9;

/** The line is laid anew until the most probable deviation stays so near, at most so often. */
const closeEnough = 0.2;
const rounds = 4;

/** What may happen to a burst: the circuit, how strong it comes, and what it begins with at each phase (turns). */
export interface BurstChance {
  readonly receiver: ReceiverParameters;
  readonly tone: ReceivedTone;
  readonly level: BurstLevel;
  readonly startAt: (phaseTurns: number) => BurstStart;
  readonly isFree: boolean;
}

/**
 * An upper bound of the probability that a burst ends without a step, without any integration: u must have been below the
 * threshold where its path comes nearest. Without noise that is the probability itself.
 *
 * @param chance - the burst
 * @param plan - the grid of its law
 * @returns the bound, averaged over start phases
 */
export function missBound(chance: BurstChance, plan: BurstPlan): number {
  const { receiver, tone, level, startAt } = chance;
  const paths = new BurstPaths(receiver, tone, plan.tone, plan, plan.until);
  const count = plan.phases === 1 ? 1 : Math.min(plan.phases, plan.isFrozen ? plan.rows : phases);
  let sum = 0;
  for (let k = 0; k < count; k++) {
    const path = paths.from((k * plan.rows) / count);
    const turns = k / count / plan.tone.periodsPerCycle;
    sum += normalCdf(fillFrozen(paths, path, level, startAt(turns), null));
  }
  return sum / count;
}

/**
 * Probability that a burst ends without a step, where it is small.
 *
 * The survival of one amplitude, by the first-passage density, as a normal quantile q is nearly straight in the
 * amplitude's deviation z. With the straight line through the most probable z at which bursts are missed,
 *
 *   P = ∫ Φ(q + s·z)·φ(z) dz = Φ(q/√(1 + s²)),  most probable z = −q·s/(1 + s²)
 *
 * @param chance - the burst
 * @returns the probability; some 10 % of itself, an upper bound where small
 *
 * Source: first-order reliability, R. Rackwitz and B. Fiessler, Computers & Structures 9, 489 (1978) (from memory); a
 * Gaussian integral. Exact case: a quantile straight in the amplitude.
 */
export function missProbability(chance: BurstChance): number {
  const { level } = chance;
  const quantile = (z: number) => {
    const amplitude = level.amplitude * Math.max(weakest, 1 + level.relative * z);
    const survival = survivalOf({ ...chance, level: { ...level, amplitude, relative: 0 } });
    return normalQuantile(Math.min(most, Math.max(least, survival)));
  };
  if (level.relative === 0) return normalCdf(quantile(0));
  // Amplitude and threshold scale together but for the noise: where the mean just reaches.
  let from = firstGuess(chance);
  let q = quantile(from);
  let to = from + 0.3;
  for (let round = 0; ; round++) {
    const next = quantile(to);
    const slope = (next - q) / (to - from);
    const atZero = next - slope * to;
    const square = 1 + slope * slope;
    const likeliest = Math.max(-farthest, (-atZero * slope) / square);
    if (round === rounds || Math.abs(likeliest - to) < closeEnough) {
      return normalCdf(atZero / Math.sqrt(square));
    }
    q = next;
    from = to;
    to = likeliest;
  }
}

/** The most probable deviation of the amplitude at which a burst is missed, were noise a spread of the threshold. */
function firstGuess({ receiver, tone, level, startAt, isFree }: BurstChance): number {
  const start = startAt(0);
  const plan = burstPlan(receiver, tone, level, start, 1, isFree);
  const paths = new BurstPaths(receiver, tone, plan.tone, plan, plan.until);
  const path = paths.from(0);
  const still = { ...level, relative: 0 };
  const q = fillFrozen(paths, path, still, start, null);
  const weaker = { ...still, amplitude: level.amplitude * (1 - level.relative) };
  const slope = q - fillFrozen(paths, path, weaker, start, null);
  return Math.max(-farthest, (-q * slope) / (1 + slope * slope));
}

/** Survival of a burst of one amplitude, averaged over start phases. */
function survivalOf({ receiver, tone, level, startAt, isFree }: BurstChance): number {
  const rough = burstPlan(receiver, tone, level, startAt(0), survivalPhases, isFree);
  const isLong = burstLength(tone) > fewPeriods * rough.tone.period;
  const paths = new BurstPaths(receiver, tone, rough.tone, rough);
  const { rows } = rough;
  const starts = rough.phases === 1 || isLong ? 1 : Math.min(survivalPhases, rows);
  const { noise, timeConstant } = rough.tone.integrator;
  const density = new PassageDensity(paths, level.threshold, noise, timeConstant, level.amplitude);
  const shares = new Float64Array(paths.steps + 1);
  let sum = 0;
  for (let k = 0; k < starts; k++) {
    const path = paths.from((k * rows) / starts);
    const start = startAt(k / starts / rough.tone.periodsPerCycle);
    if (rough.isFrozen) sum += normalCdf(fillFrozen(paths, path, level, start, null));
    else {
      const filled = density.fill(path, start, shares, paths.evenTo > 0 ? extrapolated : -1);
      const whole = normalCdf((level.threshold - start.mean) / Math.sqrt(start.variance + 1e-300));
      sum += leftOver(shares, filled, whole, rows, (paths.evenTo - filled) / rows);
    }
  }
  return sum / starts;
}

/** What is left when the rest of the burst, so many periods, goes on as the last period known. */
function leftOver(
  shares: Float64Array,
  filled: number,
  whole: number,
  rows: number,
  periods: number,
): number {
  let survival = whole;
  let last = 0;
  for (let i = 0; i < filled; i++) {
    survival -= shares[i]!;
    if (i >= filled - rows) last += shares[i]!;
  }
  survival = Math.max(survival, least);
  if (survival > extrapolated || !(periods > 0)) return survival;
  return Math.max(least, survival * pow(survival / (survival + last), periods));
}
