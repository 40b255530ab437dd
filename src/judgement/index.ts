export { type BestFit, bestFit, type Finding } from "./best-fit.ts";
export { gateRace } from "./gate-race.ts";
export { inferredCycles } from "./inferred-cycles.ts";
export { repeatedReadings } from "./repeated-readings.ts";
export { toRecord } from "./to-record.ts";
