import { normalCdf, normalQuantile, pow } from "../../numeric/index.ts";
import { type BurstPlan, burstPlan } from "./burst-grid.ts";
import { BurstPaths } from "./burst-path.ts";
import { type BurstLevel, fillFrozen } from "./frozen-density.ts";
import { type BurstStart, PassageDensity } from "./passage-density.ts";
import { burstLength, type ReceivedTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";

/** Phases of a period over which the nearest approach is averaged, where a burst has many periods and where not. */
const fewPhases = 4;
const phases = 16;
/** And those over which the survival is, where it has not. */
const survivalPhases = 8;
const manyPeriods = 20;

/** Below this survival the rest of the burst is extrapolated. */
const extrapolated = 0.02;

/** A share of a burst's crossings that does not matter to its survival. */
const tiny = 1e-12;

/** Probabilities below this count as this, and above one less a little as that. */
const least = 1e-300;
const most = 1 - 1e-15;

/** Weakest amplitude looked at, as a part of the usual one, and the deviation that nothing lies beyond. */
const weakest = 0.02;
const farthest = 9;

/** The line is laid anew until the most probable deviation stays so near, at most so often. */
const closeEnough = 0.4;
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
 * @param paths - paths on that grid
 * @param most - start phases to look at, at most
 * @returns the bound, averaged over start phases
 */
export function missBound(
  chance: BurstChance,
  plan: BurstPlan,
  paths: BurstPaths,
  most: number,
): number {
  const { tone, level, startAt } = chance;
  const isLong = !plan.isFrozen && isOfManyPeriods(tone, plan);
  const count = Math.min(
    most,
    plan.phases,
    isLong ? fewPhases : plan.isFrozen ? plan.rows : phases,
  );
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
 * @param paths - paths on the grid of its law, for a first guess
 * @returns the probability; some 10 % of itself, an upper bound where small
 *
 * Source: first-order reliability, R. Rackwitz and B. Fiessler, Computers & Structures 9, 489 (1978) (from memory); a
 * Gaussian integral. Exact case: a quantile straight in the amplitude.
 */
export function missProbability(chance: BurstChance, paths: BurstPaths): number {
  const { level } = chance;
  const levelAt = (z: number) => ({
    ...level,
    amplitude: level.amplitude * Math.max(weakest, 1 + level.relative * z),
    relative: 0,
  });
  let from = level.relative === 0 ? 0 : firstGuess(chance, levelAt, paths);
  const survival = survivalOf(chance, levelAt(from));
  const quantile = (z: number) =>
    normalQuantile(Math.min(most, Math.max(least, survival(levelAt(z)))));
  let q = quantile(from);
  if (level.relative === 0) return normalCdf(q);
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
function firstGuess(
  { startAt }: BurstChance,
  levelAt: (z: number) => BurstLevel,
  paths: BurstPaths,
): number {
  const path = paths.from(0);
  const start = startAt(0);
  const q = fillFrozen(paths, path, levelAt(0), start, null);
  const slope = q - fillFrozen(paths, path, levelAt(-1), start, null);
  return Math.max(-farthest, (-q * slope) / (1 + slope * slope));
}

/** Survival of a burst of one amplitude, averaged over start phases, on a grid made for one of them. */
function survivalOf(chance: BurstChance, usual: BurstLevel): (level: BurstLevel) => number {
  const { receiver, tone, startAt, isFree } = chance;
  const plan = burstPlan(receiver, tone, usual, startAt(0), survivalPhases, isFree);
  const paths = new BurstPaths(receiver, tone, plan.tone, plan);
  const { rows } = plan;
  const count =
    plan.phases === 1 || isOfManyPeriods(tone, plan) ? 1 : Math.min(survivalPhases, rows);
  const { noise, timeConstant } = plan.tone.integrator;
  const density = new PassageDensity(paths, usual.threshold, noise, timeConstant);
  const shares = new Float64Array(paths.steps + 1);
  const starts = Array.from({ length: count }, (_, k) => ({
    path: paths.from((k * rows) / count),
    start: startAt(k / count / plan.tone.periodsPerCycle),
  }));
  return (level) => {
    density.setAmplitude(level.amplitude);
    let sum = 0;
    for (const { path, start } of starts) {
      if (plan.isFrozen) {
        sum += normalCdf(fillFrozen(paths, path, level, start, null));
        continue;
      }
      const leave = paths.evenTo > 0 ? extrapolated : -1;
      const filled = density.fill(path, start, shares, tiny, leave);
      const whole = normalCdf((level.threshold - start.mean) / Math.sqrt(start.variance + 1e-300));
      sum += leftOver(shares, filled, whole, rows, (paths.evenTo - filled) / rows);
    }
    return sum / count;
  };
}

/** Whether it hardly matters to its end at which phase a burst began. */
function isOfManyPeriods(tone: ReceivedTone, plan: BurstPlan): boolean {
  return burstLength(tone) > manyPeriods * plan.tone.period;
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
