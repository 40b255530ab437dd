/**
 * The library's face: simulate clock-drive chains, judge and analyse readings, see what follows from a scenario, plan.
 */

export type { GapRule } from "./analysis/index.ts";
export {
  allanDeviation,
  hadamardDeviation,
  hadamardTotalDeviation,
  modifiedAllanDeviation,
  modifiedTotalDeviation,
  mtie,
  overlappingAllanDeviation,
  overlappingHadamardDeviation,
  timeDeviation,
  timeIntervalError,
  timeTotalDeviation,
  totalDeviation,
} from "./analysis/index.ts";
export type { Slip, SlipCause } from "./chain/index.ts";
export {
  outcome,
  type ReadingKind,
  type RecordColumns,
  type RunOptions,
  RunRecord,
  type RunRequest,
  Simulation,
  type Sinks,
  settleRun,
} from "./chain/index.ts";
export type { EstimatorMethod, RateEstimate } from "./judgement/index.ts";
export {
  estimateRates,
  type Judgement,
  type JudgeOptions,
  judgeReadings,
  type RateOptions,
} from "./judgement/index.ts";
export { type Edge, mark } from "./kernel/index.ts";
export { type LogOptions, LogReader, type MadeReadings, readLog } from "./log/index.ts";
export type { Instant } from "./numeric/index.ts";
export type { Prediction, RunLength, Strategy } from "./planning/index.ts";
export {
  type AccuracyPlan,
  type Budget,
  budget,
  type ChainCheck,
  type Contribution,
  checkChain,
  type EstimateTruth,
  estimateTruths,
  type LengthPlan,
  planAccuracies,
  planLengths,
  runReadings,
} from "./planning/index.ts";
export type {
  Logged,
  Note,
  NoteCode,
  PeriodReadings,
  Readings,
  Stamps,
  TimeErrorReadings,
} from "./readings/index.ts";
export { InputError } from "./readings/index.ts";
export type { Recording, Scenario, Warning } from "./scenario/index.ts";
export {
  type Complaint,
  type ParsedScenario,
  parseScenario,
  ScenarioError,
} from "./scenario/index.ts";
export type { Reading } from "./stages/counter/index.ts";
