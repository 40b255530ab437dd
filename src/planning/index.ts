export { parseAccuracy } from "./accuracy.ts";
export { type Budget, budget, type Contribution, type ContributionKind } from "./budget.ts";
export { budgetCurve } from "./budget-curve.ts";
export { type ChainCheck, checkChain } from "./chain-check.ts";
export { chainNoise, type Input, inputPeriod } from "./chain-noise.ts";
export { delayByPhase, delayErrors, detectionDelay } from "./detection-delay.ts";
export { type DialAhead, type DialQuestion, dialAhead } from "./dial-ahead.ts";
export { parseDuration } from "./duration.ts";
export { estimateVariance } from "./estimate-variance.ts";
export { type Estimator, selectionExcess, weightingOf } from "./estimator.ts";
export { expectedRecord } from "./expected-record.ts";
export { type GateRace, raceInWords, raceWarning } from "./gate-race.ts";
export {
  factorOf,
  type KeyEffect,
  type KeyRange,
  type LengthRange,
  lengthRange,
} from "./length-range.ts";

export { lineResponse, lineResponseBound } from "./line-response.ts";
export { measurements } from "./measurement.ts";
export { noNoise } from "./no-noise.ts";
export { type AccuracyPlan, type LengthPlan, planAccuracies, planLengths } from "./plan.ts";
export { raceOfScenario } from "./race-of-scenario.ts";
export { fewestReadings, lengthOf, readingsIn } from "./readings-in.ts";
export { halfWidth, type RunLength, runLength } from "./run-length.ts";
export { type EstimateTruth, estimateTruths, runReadings } from "./run-readings.ts";
export { slipNoise } from "./slip-noise.ts";
export { smoothSum } from "./smooth-sum.ts";
export {
  type Method,
  type Prediction,
  predict,
  type Strategy,
  sourceDeviation,
  standardUncertainty,
  strategies,
} from "./strategies.ts";
export { systematicBound, systematicCauses } from "./systematic-bound.ts";
export { timeBaseBound } from "./time-base-bound.ts";
export { unraced } from "./unraced.ts";
export {
  endPoints,
  frequencySumOfSquares,
  randomWalkSum,
  sumOfSquares,
  type Weighting,
} from "./weighting.ts";
