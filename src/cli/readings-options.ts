import type { Command } from "commander";
import type { ParseOptions } from "../analysis/index.ts";
import { describedReadings } from "./described-readings.ts";
import { UsageError } from "./failures.ts";
import { numberFrom } from "./options.ts";

/** Options of `withReadingsOptions`, as commander hands them over. */
export interface ReadingsFileOptions {
  readonly column?: string;
  readonly nominalPeriod?: number;
  readonly gate?: number;
  readonly backToBack?: boolean;
  readonly deadTime?: number;
  readonly temperature?: string;
}

/** Adds the options that say how a file of readings is to be understood. */
export function withReadingsOptions(command: Command): Command {
  const positive = numberFrom(0, false);
  return command
    .argument("<readings>", "file of readings (CSV, or one number a line), - for stdin")
    .option("--column <name>", "column that holds the readings: its name, or its number from 1")
    .option("--nominal-period <seconds>", "nominal period of the signal", positive)
    .option("--gate <seconds>", "length of a reading; spacing of time errors", positive)
    .option("--back-to-back", "each reading begins at the last edge of the one before")
    .option("--dead-time <seconds>", "dead time between readings", numberFrom(0, true));
}

/**
 * What the command line and the descriptor beside a file say of its readings; the command line wins.
 *
 * @throws UsageError if the command line says that readings are back to back and apart
 */
export function readingsOptions(path: string, options: ReadingsFileOptions): ParseOptions {
  if (options.backToBack && options.deadTime !== undefined && options.deadTime > 0) {
    throw new UsageError(
      `--back-to-back means no dead time, --dead-time ${options.deadTime} means some; give one of the two`,
    );
  }
  const said = describedReadings(path);
  const nominalPeriod = options.nominalPeriod ?? said?.nominalPeriod;
  const gate = options.gate ?? said?.gate ?? undefined;
  const deadTime =
    options.deadTime ?? (options.backToBack ? undefined : said?.deadTime) ?? undefined;
  return {
    file: path === "-" ? "standard input" : path,
    ...(options.column === undefined ? {} : { column: options.column }),
    ...(nominalPeriod === undefined ? {} : { nominalPeriod }),
    ...(gate === undefined ? {} : { gate }),
    ...(options.backToBack ? { backToBack: true } : {}),
    ...(deadTime === undefined ? {} : { deadTime }),
    ...(options.temperature === undefined ? {} : { temperature: options.temperature }),
  };
}
