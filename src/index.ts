/**
 * The library's face: simulate clock-drive chains, judge and analyse readings, see what follows from a scenario, plan.
 */
export { estimateRates, type RateOptions } from "./analysis/rate/estimate-rates.ts";
export {
  type Judgement,
  type JudgeOptions,
  judgeReadings,
} from "./analysis/rate/judge-readings.ts";
export type { EstimatorMethod, RateEstimate } from "./analysis/rate/rate-estimate.ts";
export { InputError } from "./analysis/readings/input-error.ts";
export {
  type ParsedReadings,
  type ParseOptions,
  parseReadings,
} from "./analysis/readings/parse-readings.ts";
export type { PeriodReadings, Readings, TimeErrorReadings } from "./analysis/readings/readings.ts";
export { allanDeviation } from "./analysis/stability/allan-deviation.ts";
export type { GapRule } from "./analysis/stability/gap-rule.ts";
export { hadamardDeviation } from "./analysis/stability/hadamard-deviation.ts";
export { hadamardTotalDeviation } from "./analysis/stability/hadamard-total-deviation.ts";
export { modifiedAllanDeviation } from "./analysis/stability/modified-allan-deviation.ts";
export { modifiedTotalDeviation } from "./analysis/stability/modified-total-deviation.ts";
export { mtie } from "./analysis/stability/mtie.ts";
export { overlappingAllanDeviation } from "./analysis/stability/overlapping-allan-deviation.ts";
export { overlappingHadamardDeviation } from "./analysis/stability/overlapping-hadamard-deviation.ts";
export { timeDeviation } from "./analysis/stability/time-deviation.ts";
export { timeIntervalError } from "./analysis/stability/time-interval-error.ts";
export { timeTotalDeviation } from "./analysis/stability/time-total-deviation.ts";
export { totalDeviation } from "./analysis/stability/total-deviation.ts";
export { type ReadingKind, type RecordColumns, RunRecord } from "./chain/run-record.ts";
export { type RunRequest, settleRun } from "./chain/run-settings.ts";
export { type RunOptions, Simulation } from "./chain/simulation.ts";
export { outcome, type Sinks } from "./chain/sinks.ts";
export type { Slip, SlipCause } from "./chain/slips.ts";
export type { Reading } from "./counter/reading.ts";
export { type Edge, mark } from "./kernel/edge.ts";
export type { Instant } from "./numeric/instant.ts";
export { type Budget, budget, type Contribution } from "./planning/budget.ts";
export { type ChainCheck, checkChain } from "./planning/chain-check.ts";
export {
  type AccuracyPlan,
  type LengthPlan,
  planAccuracies,
  planLengths,
} from "./planning/plan.ts";
export type { RunLength } from "./planning/run-length.ts";
export { type EstimateTruth, estimateTruths, runReadings } from "./planning/run-readings.ts";
export type { Prediction, Strategy } from "./planning/strategies.ts";
export { type ParsedScenario, parseScenario } from "./scenario/parse.ts";
export type { Recording, Scenario } from "./scenario/scenario.ts";
export { type Complaint, ScenarioError } from "./scenario/scenario-error.ts";
export type { Warning } from "./scenario/warning.ts";
