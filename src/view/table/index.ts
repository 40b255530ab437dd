export { BenchLog, type LogTruth } from "./bench-log.ts";
export { budgetToJson, type SimulatedRms } from "./budget-json.ts";
export { burstOutcomes, burstsColumns } from "./bursts-columns.ts";
export { checkToJson } from "./check-json.ts";
export { compareToJson } from "./compare-json.ts";
export { csvHeader, csvRows } from "./csv.ts";
export { csvNumber } from "./csv-number.ts";
export { type DataFile, dataPackage, madeKey } from "./data-package.ts";
export { estimateToJson } from "./estimate-json.ts";
export { finiteOrNull } from "./finite-or-null.ts";
export { findingsToJson, headlineToJson, levelsToJson } from "./headline-json.ts";
export { jsonText } from "./json-text.ts";
export { judgeToJson } from "./judge-json.ts";
export { numericRows } from "./numeric-rows.ts";
export { predictionToJson, strategyToJson, type VerifiedRow } from "./plan-json.ts";
export type { Provenance } from "./provenance.ts";
export { periodReadingsColumns, timeIntervalReadingsColumns } from "./readings-columns.ts";
export { readingsColumns, readingsRows } from "./readings-rows.ts";
export { RowWriter } from "./row-writer.ts";
export {
  type SummaryCell,
  summaryCellCount,
  summaryCells,
  summaryColumns,
} from "./summary-columns.ts";
export type { SweepProvenance, SweepRequest } from "./sweep-provenance.ts";
export { tickSources, ticksColumns } from "./ticks-columns.ts";
