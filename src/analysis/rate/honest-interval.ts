import { type EstimatorResponse, measurementVariance } from "./estimator-response.ts";
import { fewIntervals, type NoiseHypothesis } from "./noise-posterior.ts";
import { mixtureHalfWidth } from "./student-t.ts";

/** Half-widths and standard uncertainties of one slope, from the noise found in its record. */
export interface HonestInterval {
  readonly standardUncertainty: number;
  readonly halfWidth: number;
  /** Null where the noise found lets no mean converge, or where the record cannot tell. */
  readonly steady: { readonly standardUncertainty: number; readonly halfWidth: number } | null;
  /** Why there is no steady interval; empty where there is one. */
  readonly steadyWhy: string;
}

/** Probability of visible flicker or random-walk FM above which no steady rate is claimed. */
const wanderingAbove = 0.1;

/**
 * Two 95 % intervals of a slope: about the rate over the run, for which only the measurement's noise counts,
 * and about the steady rate, for which the source's counts too.
 *
 * The first weighs every noise hypothesis by its probability. The second exists only where flicker FM and
 * random-walk FM are not visible in a record of at least 50 intervals: a shorter one cannot tell them from
 * white noise, and they would shift all of its readings alike.
 *
 * @param hypotheses - from noisePosterior; at least one
 * @param response - of the estimator, in the units of the hypotheses' levels
 * @param intervals - length of the record in intervals
 * @returns half-widths and standard uncertainties of the slope; dimensionless
 *
 * Source: own derivation. Exact case: white measurement noise alone gives Student's t.
 */
export function honestInterval(
  hypotheses: readonly NoiseHypothesis[],
  response: EstimatorResponse,
  intervals: number,
): HonestInterval {
  const run = combine(hypotheses, (h) => measurementVariance(h, response));
  const still = hypotheses.filter((h) => h.source === "none" || h.source === "white_fm");
  const wandering = hypotheses
    .filter((h) => h.visible && (h.source === "flicker_fm" || h.source === "random_walk_fm"))
    .reduce((sum, h) => sum + h.probability, 0);
  if (intervals < fewIntervals) {
    const steadyWhy = `fewer than ${fewIntervals} readings cannot tell whether the rate holds still`;
    return { ...run, steady: null, steadyWhy };
  }
  if (still.length === 0 || wandering > wanderingAbove) {
    const steadyWhy = "flicker or random-walk FM shows in the readings, so that no mean converges";
    return { ...run, steady: null, steadyWhy };
  }
  const steady = combine(
    still,
    (h) => measurementVariance(h, response) + h.level * h.ratio * response.whiteFm,
  );
  return { ...run, steady, steadyWhy: "" };
}

/** Parts whose scales agree within two per cent are one: that changes the result by far less. */
function combine(
  hypotheses: readonly NoiseHypothesis[],
  variance: (h: NoiseHypothesis) => number,
): { standardUncertainty: number; halfWidth: number } {
  const parts = new Map<number, { scale: number; weight: number; dof: number }>();
  let total = 0;
  let mean = 0;
  for (const h of hypotheses) {
    const v = variance(h);
    total += h.probability;
    mean += h.probability * v;
    const key = h.degreesOfFreedom * 1e5 + Math.round(Math.log(v) * 30);
    const part = parts.get(key);
    if (part === undefined) {
      parts.set(key, { scale: Math.sqrt(v), weight: h.probability, dof: h.degreesOfFreedom });
    } else {
      part.scale += ((Math.sqrt(v) - part.scale) * h.probability) / (part.weight + h.probability);
      part.weight += h.probability;
    }
  }
  const list = [...parts.values()];
  return {
    standardUncertainty: Math.sqrt(mean / total),
    halfWidth: mixtureHalfWidth(
      list.map((p) => p.scale),
      list.map((p) => p.weight),
      list.map((p) => p.dof),
      0.95,
    ),
  };
}
