import type { Command } from "commander";
import type { LogOptions } from "../log/index.ts";
import { type Described, describedReadings } from "./described-readings.ts";
import { UsageError } from "./failures.ts";
import { choice, numberFrom } from "./options.ts";

/** Options of `withReadingsOptions`, as commander hands them over. */
export interface ReadingsFileOptions {
  readonly column?: string;
  readonly nominalPeriod?: number;
  readonly nominalFrequency?: number;
  readonly gate?: number;
  readonly backToBack?: boolean;
  readonly deadTime?: number;
  readonly temperature?: string;
  readonly dates?: "day-first" | "month-first";
}

/** Adds the options that say how a file of readings is to be understood. */
export function withReadingsOptions(
  command: Command,
  about = "log of readings (a table, or one number a line), - for stdin",
  argument = "<readings>",
): Command {
  const positive = numberFrom(0, false);
  // Its inverse must be a number too.
  const invertible = numberFrom(1e-16, true);
  return command
    .argument(argument, about)
    .option("--column <name>", "column that holds the readings: its name, or its number from 1")
    .option(
      "--nominal-period <seconds>",
      "nominal period of the signal; numbers without a unit are periods",
      invertible,
    )
    .option(
      "--nominal-frequency <hertz>",
      "nominal frequency; numbers without a unit are frequencies",
      invertible,
    )
    .option("--gate <seconds>", "length of a reading; spacing of time errors", positive)
    .option("--back-to-back", "each reading begins at the last edge of the one before")
    .option("--dead-time <seconds>", "dead time between readings", numberFrom(0, true))
    .addOption(
      choice("--dates <order>", "order of dates such as 05/06/2024", ["day-first", "month-first"]),
    );
}

/**
 * What the command line and the descriptor beside a file say of its readings; the command line wins.
 *
 * @param said - what stands in for the descriptor
 * @throws UsageError if the command line says that readings are back to back and apart
 */
export function readingsOptions(
  path: string,
  options: ReadingsFileOptions,
  said: Described | null = describedReadings(path),
): LogOptions {
  if (options.backToBack && options.deadTime !== undefined && options.deadTime > 0) {
    throw new UsageError(
      `--back-to-back means no dead time, --dead-time ${options.deadTime} means some; give one of the two`,
    );
  }
  if (options.nominalPeriod !== undefined && options.nominalFrequency !== undefined) {
    throw new UsageError(
      "--nominal-period says that bare numbers are periods, --nominal-frequency that they are frequencies; give one of the two",
    );
  }
  const isFrequency = options.nominalFrequency !== undefined;
  const nominalPeriod =
    options.nominalPeriod ?? (isFrequency ? 1 / options.nominalFrequency! : said?.nominalPeriod);
  const gate = options.gate ?? said?.gate ?? undefined;
  const deadTime =
    options.deadTime ?? (options.backToBack ? undefined : said?.deadTime) ?? undefined;
  return {
    file: path === "-" ? "standard input" : path,
    ...(options.column === undefined ? {} : { column: options.column }),
    ...(nominalPeriod === undefined ? {} : { nominalPeriod }),
    ...(isFrequency ? { isFrequency } : {}),
    ...(gate === undefined ? {} : { gate }),
    ...(options.backToBack ? { backToBack: true } : {}),
    ...(deadTime === undefined ? {} : { deadTime }),
    ...(options.temperature === undefined ? {} : { temperature: options.temperature }),
    ...(options.dates === undefined ? {} : { dates: options.dates }),
  };
}
