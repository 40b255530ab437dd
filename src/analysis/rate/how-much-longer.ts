import { pow } from "../../numeric/index.ts";
import type { Readings } from "../../readings/index.ts";
import { measurementVariance } from "./estimator-response.ts";
import type { NoiseHypothesis } from "./noise-posterior.ts";
import { type RateCandidate, type RateCandidates, rateCandidates } from "./rate-candidates.ts";
import type { EstimatorMethod } from "./rate-estimate.ts";
import { likelyHypotheses, sourceAllanVariance } from "./source-noise.ts";
import { mixtureHalfWidth } from "./student-t.ts";

/** How much longer a run must go on until one method is as sure as wanted. */
export interface MuchLonger {
  readonly method: EstimatorMethod;
  /** Whether it ever gets there. */
  readonly reachable: boolean;
  /** Further time needed from here; s; 0 = there already; Infinity = never. */
  readonly further: number;
  /** Half-width at 95 % (systematic bound added) now, and at its best within a million times the length. */
  readonly now: number;
  readonly best: number;
  /** What limits it where it is not reachable; else what dominates at the length needed. */
  readonly limitedBy:
    | "systematic_bound"
    | "measurement"
    | "white_fm"
    | "flicker_fm"
    | "random_walk_fm"
    | "unknown";
}

/**
 * How much longer a run must go on to know its rate within a half-width at 95 %.
 *
 * The measurement's noise falls with the length L as the method has it (end to end 1/L², line 1/L³, readings
 * with dead time 1/L, in variance; under flicker PM no faster than 1/L²); the source's enters as its Allan variance
 * at that length.
 *
 * @param readings - the record so far
 * @param within - half-width wanted; dimensionless, > 0
 * @param systematicBound - half-width of what no averaging removes, added; dimensionless, >= 0
 * @param found - slopes and noise of the same record, where they are known already
 * @returns one answer per method that has an uncertainty
 * @throws RangeError if within is not positive
 *
 * Source: own derivation. Exact case: end to end under white PM, half the half-width at twice the length.
 */
export function howMuchLonger(
  readings: Readings,
  within: number,
  systematicBound = 0,
  found: RateCandidates = rateCandidates(readings),
): MuchLonger[] {
  if (!(within > 0)) throw new RangeError(`howMuchLonger: within must be > 0, got ${within}`);
  const { candidates, intervals } = found;
  return candidates
    .filter((c) => c.response !== null && c.noise.hypotheses.length > 0)
    .map((c) => longer(c, within, systematicBound, intervals));
}

function longer(
  candidate: RateCandidate,
  within: number,
  bound: number,
  intervals: number,
): MuchLonger {
  const { method, noise, response } = candidate;
  const hypotheses = likelyHypotheses(noise.hypotheses);
  const power = noise.independent ? 1 : method === "line_fit" ? 3 : 2;
  const measurement = (h: NoiseHypothesis, times: number) =>
    measurementVariance({ ...h, rounding: 0 }, response!) /
      pow(times, h.whitePm === 0 ? Math.min(power, 2) : power) +
    ((h.rounding ?? 0) * response!.whiteFm) / times;
  const halfWidth = (times: number) =>
    bound +
    mixtureHalfWidth(
      hypotheses.map((h) =>
        Math.sqrt(measurement(h, times) + sourceAllanVariance(h, times * intervals)),
      ),
      hypotheses.map((h) => h.probability),
      hypotheses.map((h) => h.degreesOfFreedom),
      0.95,
    );
  const now = halfWidth(1);
  const span = intervals * noise.interval;
  let best = now;
  let bestTimes = 1;
  let before = 1;
  for (let step = 0; step <= 160; step++) {
    const times = pow(2, step / 8);
    const half = halfWidth(times);
    if (half <= within) {
      const reached = times === 1 ? 1 : bisect(halfWidth, before, times, within);
      const limitedBy = dominant(hypotheses, (h) => measurement(h, reached), reached * intervals);
      return { method, reachable: true, further: (reached - 1) * span, now, best: half, limitedBy };
    }
    if (half < best) {
      best = half;
      bestTimes = times;
    }
    before = times;
  }
  const limitedBy =
    bound >= within
      ? "systematic_bound"
      : dominant(hypotheses, (h) => measurement(h, bestTimes), bestTimes * intervals);
  return { method, reachable: false, further: Number.POSITIVE_INFINITY, now, best, limitedBy };
}

function bisect(half: (times: number) => number, low: number, high: number, within: number) {
  let above = low;
  let below = high;
  for (let i = 0; i < 20; i++) {
    const middle = (above + below) / 2;
    if (half(middle) > within) above = middle;
    else below = middle;
  }
  return below;
}

function dominant(
  hypotheses: readonly NoiseHypothesis[],
  measurement: (h: NoiseHypothesis) => number,
  intervals: number,
): MuchLonger["limitedBy"] {
  const share = new Map<MuchLonger["limitedBy"], number>();
  const add = (name: MuchLonger["limitedBy"], v: number) =>
    share.set(name, (share.get(name) ?? 0) + v);
  // Each hypothesis counts with its probability, however large the variance it would have.
  for (const h of hypotheses) {
    const fromMeasurement = measurement(h);
    const fromSource = sourceAllanVariance(h, intervals);
    const total = fromMeasurement + fromSource;
    add("measurement", (h.probability * fromMeasurement) / total);
    if (h.source !== "none") add(h.source, (h.probability * fromSource) / total);
  }
  return [...share].sort((a, b) => b[1] - a[1])[0]?.[0] ?? "unknown";
}
