import type { GateTiming } from "../stages/counter/index.ts";
import { lagWeight } from "./lag-weight.ts";
import { endPoints, sumOfSquares, type Weighting } from "./weighting.ts";

/** The estimators a plan is made for, as `run` names them. */
export type Estimator = "mean_of_readings" | "line_fit";

/**
 * How an estimator weights the stamps of K readings.
 *
 * @param timing - which edges are stamped
 * @param estimator - mean of the readings, or a line fitted to the accumulated time error
 * @param readings - K; integer >= `fewestReadings`
 */
export function weightingOf(timing: GateTiming, estimator: Estimator, readings: number): Weighting {
  const { gate, spacing, isStamped } = timing;
  const hasGaps = spacing > gate;
  const spans = isStamped ? readings - 1 : readings;
  if (estimator === "line_fit" && !hasGaps) return { kind: "line", stamps: spans + 1, spacing };
  return hasGaps ? { kind: "gates", readings, gate, spacing } : endPoints(spans * spacing, spacing);
}

/**
 * What the choice of edges adds to the variance of an estimate whose edges were taken to have independent
 * errors of variance `jitter`².
 *
 * A reading whose start and stop edge are caught in different ways is off by the difference of their mean
 * errors over the gate, and averaging does not help; the first stamp of a run is caught in a way of its own.
 *
 * @param timing - which edges are stamped
 * @param estimator - mean of the readings, or a line
 * @param readings - K; integer >= `fewestReadings`
 * @param jitter - rms jitter of an edge; s
 * @returns mean square added; dimensionless, may be negative
 *
 * Source: own derivation, from `edgeSelection`. Exact case: no choice of edges adds nothing.
 */
export function selectionExcess(
  timing: GateTiming,
  estimator: Estimator,
  readings: number,
  jitter: number,
): number {
  const { selection, gate, isStamped } = timing;
  if (selection === null) return 0;
  const square = jitter * jitter;
  const { means, variances, covariances, firstMean, firstVariance } = selection;
  const last = means.length - 1;
  const weighting = weightingOf(timing, estimator, readings);
  if (weighting.kind === "gates") {
    const spread = variances[0]! + variances[last]! - 2 * square - 2 * covariances[0]!;
    const between = (2 * covariances[last]! * (readings - 1)) / readings;
    // The first start edge is caught in a way of its own.
    const bias = means[0]! - means[last]! + (means[last]! - firstMean) / readings;
    const first = (firstVariance - variances[last]!) / (readings * readings);
    return ((spread - between) / readings + bias * bias + first) / (gate * gate);
  }
  if (weighting.kind !== "line") return 0;
  const first =
    firstVariance - variances[last]! + (firstMean - means[last]!) * (firstMean - means[last]!);
  const { stamps, spacing } = weighting;
  const firstWeight = 6 / (stamps * (stamps + 1) * spacing);
  const isAdjacent = stamps === readings + (isStamped ? 0 : 1);
  const adjacent = isAdjacent ? lagWeight(weighting, 1) : 0;
  return (
    (variances[0]! - square) * sumOfSquares(weighting) +
    2 * covariances[0]! * adjacent +
    first * firstWeight * firstWeight
  );
}
