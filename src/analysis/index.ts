export { allanDeviation } from "./stability/allan-deviation.ts";
export { allFactors, octaveFactors } from "./stability/averaging-factors.ts";
export { bias1, bias2, bias3 } from "./stability/bias-functions.ts";
export { degreesOfFreedom, type StabilityStatistic } from "./stability/degrees-of-freedom.ts";
export { deviationInterval } from "./stability/deviation-interval.ts";
export { firstDriftingRow } from "./stability/first-drifting-row.ts";
export type { GapRule } from "./stability/gap-rule.ts";
export { hadamardDeviation } from "./stability/hadamard-deviation.ts";
export { hadamardTotalDeviation } from "./stability/hadamard-total-deviation.ts";
export { modifiedAllanDeviation } from "./stability/modified-allan-deviation.ts";
export { modifiedTotalDeviation } from "./stability/modified-total-deviation.ts";
export { mtie, mtieAt } from "./stability/mtie.ts";
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
