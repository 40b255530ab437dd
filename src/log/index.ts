export type { Quantity } from "./column-name.ts";
export type { LogOptions } from "./log-options.ts";
export { LogReader, readLog } from "./log-reader.ts";
export type { MadeReadings } from "./make-readings.ts";
