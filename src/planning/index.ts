export { parseAccuracy } from "./accuracy.ts";
export { beatNoise, type DelayByPhase } from "./beat-noise.ts";
export { type Budget, budget, type Contribution, type ContributionKind } from "./budget.ts";
export { budgetCurve } from "./budget-curve.ts";
export { type ChainCheck, checkChain } from "./chain-check.ts";
export { chainNoise, type Input, inputPeriod, ownVariance } from "./chain-noise.ts";
export { divide, exponentialLess1, multiply, squareRoot } from "./complex.ts";
export { conciseNumber } from "./concise-number.ts";
export { conciseUncertainty } from "./concise-uncertainty.ts";
export { counterNoise } from "./counter-noise.ts";
export { delayByPhase, delayErrors, detectionDelay } from "./detection-delay.ts";
export { type DialAhead, type DialQuestion, dialAhead } from "./dial-ahead.ts";
export { parseDuration } from "./duration.ts";
export { edgeSelection } from "./edge-selection.ts";
export { errorCells, errorLaw, errorReach, errorWidth, gaussianLaw } from "./error-law.ts";
export { estimateVariance } from "./estimate-variance.ts";
export { explainedRate, explainedRates } from "./explained-rates.ts";
export {
  type Estimator,
  fewestReadings,
  gateTiming,
  lengthOf,
  readingExcess,
  readingsIn,
  selectionExcess,
  weightingOf,
} from "./gate-timing.ts";
export { humanDuration } from "./human-duration.ts";
export { lineResponse, lineResponseBound } from "./line-response.ts";
export { autocorrelationAt, type Decay, loopAutocorrelation } from "./loop-autocorrelation.ts";
export { loopNoise } from "./loop-noise.ts";
export { measurements } from "./measurement.ts";
export type { Line, NoiseShape } from "./noise-shape.ts";
export { frequencyNoise, phaseNoise } from "./oscillator-noise.ts";
export { type AccuracyPlan, type LengthPlan, planAccuracies, planLengths } from "./plan.ts";
export { rateInWords } from "./rate-in-words.ts";
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
export {
  endPoints,
  frequencySumOfSquares,
  randomWalkSum,
  sumOfSquares,
  type Weighting,
} from "./weighting.ts";
