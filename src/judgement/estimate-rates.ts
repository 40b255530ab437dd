import type { Known } from "../noise-model/index.ts";
import type { Readings } from "../readings/index.ts";
import { requireReadings } from "../readings/index.ts";
import { atMeanTemperature } from "./at-mean-temperature.ts";
import { type BestFit, bestFit, leastReadings } from "./best-fit.ts";
import { estimatorWeights } from "./estimator-weights.ts";
import { type PlainRate, type PlainRates, plainRates } from "./plain-slopes.ts";
import type { EstimatorMethod, RateEstimate } from "./rate-estimate.ts";

/** What is known beside the readings. */
export interface RateOptions {
  /** Half-width of a bound on what shifts every reading alike (the time base); dimensionless, >= 0. */
  readonly systematicBound?: number;
  /** What is known of the source. */
  readonly known?: Known;
}

/** Estimates, and what they stand on. */
export interface RatesFound {
  readonly estimates: RateEstimate[];
  /** Null for too few readings. */
  readonly fit: BestFit | null;
  readonly plain: PlainRates;
}

/**
 * Rate by three plain estimators and by the best fit, each with the uncertainty that follows from the noise found.
 *
 * @param readings - the record; at least one reading not missing
 * @param options - what is known beside it
 * @returns estimates in the order mean of readings, end to end, line fit, best fit
 * @throws RangeError if the record is none (columns of unlike length, a value outside its range), every reading is
 *   missing, or the bound is not >= 0
 *
 * Source: own derivation; see the single estimators and the noise model. Exact case: a constant period P gives T/P − 1
 * by all four.
 */
export function estimateRates(readings: Readings, options: RateOptions = {}): RateEstimate[] {
  return ratesFound(readings, options).estimates;
}

/** The same with what they stand on. */
export function ratesFound(readings: Readings, options: RateOptions = {}): RatesFound {
  requireReadings("estimateRates", readings);
  const { systematicBound = 0, known = {} } = options;
  if (!(systematicBound >= 0)) {
    throw new RangeError(`estimateRates: systematicBound must be >= 0, got ${systematicBound}`);
  }
  const fit = bestFit(readings, known);
  const plain = plainRates(
    fit?.temperature === undefined ? readings : atMeanTemperature(readings, fit.temperature),
  );
  const bound =
    fit?.systematic.reduce((sum, one) => sum + one.bound, systematicBound) ?? systematicBound;
  const naive = plain.singleDeviation / Math.sqrt(plain.count);
  const few = `${plain.count === 1 ? "one reading is" : `${plain.count} readings are`} too few to know ${plain.count === 1 ? "its" : "their"} own noise; at least ${leastReadings} are needed`;
  const estimates = plain.rates.map((one) => {
    const against = one.against || (fit === null ? few : "");
    return withUncertainty(one, against === "" ? fit : null, against, naive, bound);
  });
  return { estimates: [...estimates, bestOf(fit, plain, few, naive, bound)], fit, plain };
}

/** A plain estimate with the uncertainty that it has under the levels of the best fit. */
function withUncertainty(
  { method, rate, why }: PlainRate,
  fit: BestFit | null,
  against: string,
  naive: number,
  systematicBound: number,
): RateEstimate {
  const common = {
    method,
    rate,
    secondsPerDay: rate * 86400,
    naiveStandardUncertainty: naive,
    systematicBound,
    steadyWhy: "",
  };
  if (fit === null) {
    return {
      ...common,
      standardUncertainty: Number.NaN,
      interval95: [Number.NaN, Number.NaN],
      steadyStandardUncertainty: null,
      steadyInterval95: null,
      nextRunStandardDeviation: Number.NaN,
      applies: false,
      why: against,
    };
  }
  const around = (half: number): [number, number] => [rate - half, rate + half];
  const { posterior } = fit;
  if (posterior === null) {
    const half = (fit.steady.interval95[1] - fit.steady.interval95[0]) / 2;
    return {
      ...common,
      standardUncertainty: half / 1.96,
      interval95: around(half),
      steadyStandardUncertainty: half / 1.96,
      steadyInterval95: around(half),
      nextRunStandardDeviation: fit.nextRun,
      applies: true,
      why: "the digits of the readings set the interval",
    };
  }
  const { overRun, steady, nextRun } = posterior.ofEstimator(
    estimatorWeights(posterior.scaled, method),
  );
  return {
    ...common,
    standardUncertainty: overRun.rms,
    interval95: around(overRun.half),
    steadyStandardUncertainty: steady.rms,
    steadyInterval95: around(steady.half),
    nextRunStandardDeviation: nextRun,
    applies: true,
    why,
  };
}

function bestOf(
  fit: BestFit | null,
  plain: PlainRates,
  few: string,
  naive: number,
  systematicBound: number,
): RateEstimate {
  if (fit === null) {
    const mean = { ...plain.rates[0]!, method: "mean_of_readings" as const };
    return { ...withUncertainty(mean, null, few, naive, systematicBound), method: "best_fit" };
  }
  const half = ([low, high]: readonly [number, number]) => (high - low) / 2;
  return {
    method: "best_fit",
    rate: fit.overRun.rate,
    secondsPerDay: fit.overRun.rate * 86400,
    standardUncertainty: half(fit.overRun.interval95) / 1.96,
    interval95: fit.overRun.interval95,
    steadyStandardUncertainty: half(fit.steady.interval95) / 1.96,
    steadyInterval95: fit.steady.interval95,
    naiveStandardUncertainty: naive,
    nextRunStandardDeviation: fit.nextRun,
    systematicBound,
    applies: true,
    why: "weighs every edge as the noise found asks, averaged over what that may be",
    steadyWhy: "",
  };
}

/** An estimate by one of the plain estimators. */
export type PlainEstimate = RateEstimate & { readonly method: EstimatorMethod };

/** Estimates by the three plain estimators alone. */
export function plainEstimates(readings: Readings, options: RateOptions = {}): PlainEstimate[] {
  return estimateRates(readings, options).filter(
    (estimate): estimate is PlainEstimate => estimate.method !== "best_fit",
  );
}
