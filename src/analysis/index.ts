export { type CleanReadings, cleanReadings } from "./rate/clean-readings.ts";
export { cleanedEstimates } from "./rate/cleaned-estimates.ts";
export { componentLikelihood } from "./rate/component-likelihood.ts";
export { correctTemperature } from "./rate/correct-temperature.ts";
export { cosineTransform } from "./rate/cosine-transform.ts";
export { dialAhead } from "./rate/dial-ahead.ts";
export { digitWarnings } from "./rate/digit-warnings.ts";
export { edgeRecord } from "./rate/edge-record.ts";
export { edgeSlopes } from "./rate/edge-slopes.ts";
export { endToEndSlope } from "./rate/end-to-end-slope.ts";
export { estimateRates, type RateOptions } from "./rate/estimate-rates.ts";
export {
  endToEndResponse,
  independentReadingsResponse,
  lineFitResponse,
  meanOfReadingsResponse,
  measurementVariance,
} from "./rate/estimator-response.ts";
export { extremeDeviates } from "./rate/extreme-deviates.ts";
export { findBeats } from "./rate/find-beats.ts";
export { type FittedParameter, fitNoise, type NoiseFit } from "./rate/fit-noise.ts";
export { fittedScenario } from "./rate/fitted-scenario.ts";
export {
  flickerPmAtEnds,
  flickerPmInRecord,
  flickerPmOfLine,
  flickerPmStructure,
} from "./rate/flicker-pm.ts";
export { fourierTransform } from "./rate/fourier-transform.ts";
export { hiddenWander } from "./rate/hidden-wander.ts";
export { howMuchLonger } from "./rate/how-much-longer.ts";
export { type Judgement, type JudgeOptions, judgeReadings } from "./rate/judge-readings.ts";
export { lineFitSlope } from "./rate/line-fit-slope.ts";
export { meanOfReadingsSlope } from "./rate/mean-of-readings-slope.ts";

export { boundaryModes, type NoiseModes, readingModes } from "./rate/noise-modes.ts";
export { noisePosterior } from "./rate/noise-posterior.ts";
export { noiseRecord } from "./rate/noise-record.ts";
export type { Outlier } from "./rate/outlier.ts";
export { quadraticForms } from "./rate/quadratic-forms.ts";
export { rateCandidates } from "./rate/rate-candidates.ts";
export { type EstimatorMethod, estimatorMethods, type RateEstimate } from "./rate/rate-estimate.ts";
export { rateOfSlope } from "./rate/rate-of-slope.ts";
export { regressTemperature, type TemperatureFit } from "./rate/regress-temperature.ts";
export { repairSlips } from "./rate/repair-slips.ts";
export { setSpansApart } from "./rate/set-spans-apart.ts";
export { setStraysApart } from "./rate/set-strays-apart.ts";
export { sineTransform } from "./rate/sine-transform.ts";
export { sourceAllanVariance, sourcePredictionVariance } from "./rate/source-noise.ts";
export { mixtureHalfWidth, studentWithin } from "./rate/student-t.ts";
export { notOfOneRate, tooMuchApart } from "./rate/too-much-apart.ts";
export { allanDeviation } from "./stability/allan-deviation.ts";
export { allFactors, octaveFactors } from "./stability/averaging-factors.ts";
export { bias1, bias2, bias3 } from "./stability/bias-functions.ts";
export { degreesOfFreedom, type StabilityStatistic } from "./stability/degrees-of-freedom.ts";
export { deviationInterval } from "./stability/deviation-interval.ts";
export { firstDriftingRow } from "./stability/first-drifting-row.ts";
export type { GapRule } from "./stability/gap-rule.ts";
export { hadamardDeviation } from "./stability/hadamard-deviation.ts";
export { hadamardTotalDeviation } from "./stability/hadamard-total-deviation.ts";
export { decimated, lagOnePower, means } from "./stability/lag-one-power.ts";
export { modifiedAllanDeviation } from "./stability/modified-allan-deviation.ts";
export { modifiedTotalDeviation } from "./stability/modified-total-deviation.ts";
export { mtie, mtieAt } from "./stability/mtie.ts";
export { identifyNoise } from "./stability/noise-identification.ts";
export { type NoiseType, noiseName, noiseTypes } from "./stability/noise-type.ts";
export { overlappingAllanDeviation } from "./stability/overlapping-allan-deviation.ts";
export { overlappingHadamardDeviation } from "./stability/overlapping-hadamard-deviation.ts";
export { longRecordExponent, readingCovariance } from "./stability/reading-covariance.ts";
export { readingSimulator } from "./stability/reading-simulator.ts";
export { removeDeadTimeBias } from "./stability/remove-dead-time-bias.ts";
export type { StabilityRow } from "./stability/stability-row.ts";
export {
  stabilityTableFromRates,
  stabilityTableFromTimeError,
} from "./stability/stability-table.ts";
export { timeDeviation } from "./stability/time-deviation.ts";
export { entireCosineIntegral, timeErrorCovariance } from "./stability/time-error-covariance.ts";
export { timeErrorFromRates } from "./stability/time-error-from-rates.ts";
export { timeIntervalError } from "./stability/time-interval-error.ts";
export { timeTotalDeviation } from "./stability/time-total-deviation.ts";
export { totalDeviation } from "./stability/total-deviation.ts";
