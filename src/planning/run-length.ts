import { normalQuantile, shortNumber } from "../numeric/index.ts";
import type { Scenario } from "../scenario/index.ts";
import { estimateVariance } from "./estimate-variance.ts";
import { selectionExcess, weightingOf } from "./estimator.ts";
import { raceInWords } from "./gate-race.ts";
import { fewestReadings, lengthOf } from "./readings-in.ts";
import { type Strategy, sourceDeviation, standardUncertainty, variances } from "./strategies.ts";
import { systematicBound } from "./systematic-bound.ts";

/** How long a run must last for one way of measuring. */
export interface RunLength {
  /** Length of the run; s. NaN where the accuracy is never reached. */
  readonly length: number;
  /** Readings in it; NaN where never. */
  readonly readings: number;
  readonly reachable: boolean;
  /** What stands in the way, in words; null where reachable. */
  readonly limitedBy: string | null;
}

/** Longest run that is looked at: some hundred million years; s. */
const longest = 1e16;
/** Ratio of neighbouring numbers of readings on the first search. */
const stride = Math.SQRT2;
/** How far a length found with the bound on lines is shortened at most, reading by reading. */
const mostSteps = 50_000;
/** Readings over which all but the lines changes evenly. */
const stretch = 64;

/**
 * Half-width of the interval that a rate from K readings is known to: k·√(u² + source²) + bound.
 *
 * @param scenario - the scenario
 * @param strategy - the way of measuring
 * @param readings - K
 * @param confidence - of the interval; 0 < p < 1
 * @param isBound - bound of lines for all longer runs in place of their value
 * @returns dimensionless
 */
export function halfWidth(
  scenario: Scenario,
  strategy: Strategy,
  readings: number,
  confidence: number,
  isBound = false,
): number {
  const coverage = normalQuantile(0.5 + confidence / 2);
  const source = sourceDeviation(scenario, lengthOf(strategy.timing, readings));
  const own = standardUncertainty(strategy, readings, isBound);
  return coverage * Math.hypot(own, source) + systematicBound(strategy.systematic);
}

/**
 * The shortest run after which a way of measuring knows the rate to a given accuracy.
 *
 * The accuracy is the half-width of the interval, systematic bound included. Lines (spurs, the beat of a tone)
 * make it rise and fall with the length of the run: the run found is the shortest from which on it holds.
 *
 * @param scenario - the scenario
 * @param strategy - one of its ways of measuring
 * @param within - accuracy asked for; dimensionless, > 0
 * @param confidence - of the interval; 0 < p < 1
 * @returns length and readings, or what limits it
 * @throws RangeError if within or confidence is outside its range
 */
export function runLength(
  scenario: Scenario,
  strategy: Strategy,
  within: number,
  confidence = 0.95,
): RunLength {
  if (!(within > 0)) throw new RangeError(`runLength: within must be > 0, got ${within}`);
  if (!(confidence > 0 && confidence < 1)) {
    throw new RangeError(`runLength: confidence must be > 0 and < 1, got ${confidence}`);
  }
  if (strategy.obstacle !== null) return never(strategy.obstacle);
  if (systematicBound(strategy.systematic) >= within) return never(systematicLimit(strategy));
  const width = (readings: number, isBound: boolean) =>
    halfWidth(scenario, strategy, readings, confidence, isBound);

  const first = fewestReadings(strategy.timing);
  let readings = first;
  let before = first - 1;
  let best = Infinity;
  let bestReadings = first;
  for (;;) {
    const reached = width(readings, true);
    if (reached < best) {
      best = reached;
      bestReadings = readings;
    }
    if (reached <= within) break;
    const next = Math.max(readings + 1, Math.floor(readings * stride));
    if (lengthOf(strategy.timing, next) > longest) {
      // The best may lie between two strides.
      const least = Math.max(first, Math.floor(bestReadings / stride) - 1);
      const lowest = valley((k) => width(k, true), least, Math.ceil(bestReadings * stride));
      if (width(lowest, true) > within) {
        return never(limit(scenario, strategy, lowest, width(lowest, true)));
      }
      before = least;
      readings = lowest;
      break;
    }
    before = readings;
    readings = next;
  }
  while (readings - before > 1) {
    const middle = before + Math.floor((readings - before) / 2);
    if (middle <= before || middle >= readings) break;
    if (width(middle, true) <= within) readings = middle;
    else before = middle;
  }
  readings = shortened(scenario, strategy, readings, within, confidence);
  return {
    length: lengthOf(strategy.timing, readings),
    readings,
    reachable: true,
    limitedBy: null,
  };
}

/** Where a function of whole numbers that falls and then rises is lowest, by thirds. */
function valley(f: (k: number) => number, from: number, to: number): number {
  let low = from;
  let high = to;
  while (high - low > 2) {
    const third = Math.max(1, Math.floor((high - low) / 3));
    if (f(low + third) <= f(high - third)) high -= third;
    else low += third;
  }
  const middle = Math.min(low + 1, high);
  return [low, middle, high].reduce((a, b) => (f(b) < f(a) ? b : a));
}

/**
 * The fewest readings from which on the accuracy holds, sought downwards from a number that is surely enough.
 *
 * Lines are looked at reading by reading. What else there is costs more to tell and is bounded by its values at the
 * ends of a stretch; only where that does not decide it is told for a single reading.
 */
function shortened(
  scenario: Scenario,
  strategy: Strategy,
  enough: number,
  within: number,
  confidence: number,
): number {
  const coverage = normalQuantile(0.5 + confidence / 2);
  const allowed = ((within - systematicBound(strategy.systematic)) / coverage) ** 2;
  const { lines, rest } = variances(strategy);
  const still = (k: number) =>
    rest(k) + sourceDeviation(scenario, lengthOf(strategy.timing, k)) ** 2;
  const first = fewestReadings(strategy.timing);
  let readings = enough;
  let above = still(enough);
  while (readings > first && enough - readings < mostSteps) {
    const low = Math.max(first, readings - stretch);
    const below = still(low);
    const most = Math.max(above, below);
    let k = readings - 1;
    while (k >= low && most + lines(k) <= allowed) k--;
    while (k >= low && halfWidth(scenario, strategy, k, confidence) <= within) k--;
    if (k >= low) return k + 1;
    readings = low;
    above = below;
  }
  return readings;
}

const never = (limitedBy: string): RunLength => ({
  length: Number.NaN,
  readings: Number.NaN,
  reachable: false,
  limitedBy,
});

/** What shifts the rate by as much as is allowed, or more. */
function systematicLimit({ systematic }: Strategy): string {
  const { stage, cause, bound } = systematic.reduce((a, b) => (b.bound > a.bound ? b : a));
  const size = shortNumber(bound);
  if (stage === "time base")
    return `the counter's time base is known to ${size} (counter.timebase.uncertainty)`;
  return stage === "reference"
    ? `the counter runs on the reference, which may itself be off by ${size}`
    : `${stage}: ${cause} shift the rate by ${size}`;
}

/** Who keeps the interval wide at its narrowest. */
function limit(scenario: Scenario, strategy: Strategy, readings: number, best: number): string {
  const weighting = weightingOf(strategy.timing, strategy.estimator, readings);
  const source = sourceDeviation(scenario, lengthOf(strategy.timing, readings));
  let largest = source * source;
  let cause = "the reference's own frequency noise";
  for (const term of strategy.terms) {
    const variance = estimateVariance(weighting, term.shape, true);
    if (variance > largest) {
      largest = variance;
      cause = `${term.stage}: ${term.cause}`;
    }
  }
  const { timing, estimator, jitter } = strategy;
  if (selectionExcess(timing, estimator, readings, jitter) > largest) {
    if (strategy.race !== null) return raceInWords(strategy.race, false);
    cause = "counter: which edge the gate catches";
  }
  return `${cause} lets no run know the rate to better than ${shortNumber(best)}`;
}
