/**
 * The library's face: simulate clock-drive chains, analyse readings, plan measurements.
 */
export { estimateRates } from "./analysis/rate/estimate-rates.ts";
export type { EstimatorMethod, RateEstimate } from "./analysis/rate/rate-estimate.ts";
export type { PeriodReadings, Readings, TimeErrorReadings } from "./analysis/readings/readings.ts";
export { modifiedAllanDeviation } from "./analysis/stability/modified-allan-deviation.ts";
export { mtie } from "./analysis/stability/mtie.ts";
export { overlappingAllanDeviation } from "./analysis/stability/overlapping-allan-deviation.ts";
export { overlappingHadamardDeviation } from "./analysis/stability/overlapping-hadamard-deviation.ts";
export { timeDeviation } from "./analysis/stability/time-deviation.ts";
export { RunRecord } from "./chain/run-record.ts";
export { settleRun } from "./chain/run-settings.ts";
export { type RunOptions, Simulation } from "./chain/simulation.ts";
export type { Sinks } from "./chain/sinks.ts";
export type { Slip } from "./chain/slips.ts";
export type { Reading } from "./counter/reading.ts";
export { type ChainCheck, checkChain } from "./planning/chain-check.ts";
export { estimateTruths, runReadings } from "./planning/run-readings.ts";
export { type ParsedScenario, parseScenario } from "./scenario/parse.ts";
export type { Recording, Scenario } from "./scenario/scenario.ts";
export { ScenarioError } from "./scenario/scenario-error.ts";
export type { Warning } from "./scenario/warning.ts";
