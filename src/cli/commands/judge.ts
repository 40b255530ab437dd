import { type Command, InvalidArgumentError, Option } from "commander";
import { judgeReadings } from "../../analysis/rate/judge-readings.ts";
import {
  regressTemperature,
  type TemperatureFit,
} from "../../analysis/rate/regress-temperature.ts";
import { type ParseOptions, parseReadings } from "../../analysis/readings/parse-readings.ts";
import { parseAccuracy } from "../../planning/accuracy.ts";
import { readingPictures } from "../../report/reading-pictures.ts";
import { jsonText } from "../../table/json-text.ts";
import { judgeToJson } from "../../table/judge-json.ts";
import { describedReadings } from "../described-readings.ts";
import { DataError } from "../failures.ts";
import { newCommand } from "../new-command.ts";
import { durationOption } from "../options.ts";
import { OutputFolder } from "../output-folder.ts";
import { printJudgement } from "../print-judgement.ts";
import { readText } from "../read-text.ts";
import { pictureFiles } from "../run-pictures.ts";

interface JudgeCommandOptions {
  readonly column?: string;
  readonly nominalPeriod?: number;
  readonly gate?: number;
  readonly backToBack?: boolean;
  readonly deadTime?: number;
  readonly slipUnit?: number;
  readonly timebase?: number;
  readonly temperature?: string;
  readonly within?: number;
  readonly ahead?: number;
  readonly taus?: "octaves" | "all";
  readonly plot?: boolean;
  readonly out?: string;
  readonly force?: boolean;
  readonly json?: boolean;
}

/** An accuracy such as 1e-9, 0.5ppm, "2 ms/day". */
export const accuracyOption = (text: string): number => {
  try {
    return parseAccuracy(text);
  } catch {
    throw new InvalidArgumentError('must be an accuracy such as 1e-9, 0.5ppm or "2 ms/day"');
  }
};

/** A number of seconds (or of anything) above `least`, or at it. */
export const numberFrom = (least: number, isIncluded: boolean) => (text: string) => {
  const value = text.trim() === "" ? Number.NaN : Number(text);
  if (!(isIncluded ? value >= least : value > least) || !Number.isFinite(value)) {
    throw new InvalidArgumentError(
      `must be a number ${isIncluded ? "of at least" : "above"} ${least}`,
    );
  }
  return value;
};

/** Adds the options that say how a file of readings is to be understood. */
export function withReadingsOptions(command: Command): Command {
  const positive = numberFrom(0, false);
  return command
    .argument("<readings>", "file of readings (CSV, or one number a line), - for stdin")
    .option("--column <name>", "column that holds the readings: its name, or its number from 1")
    .addOption(
      new Option("--nominal-period <seconds>", "nominal period of the signal").argParser(positive),
    )
    .addOption(
      new Option("--gate <seconds>", "length of a reading; spacing of time errors").argParser(
        positive,
      ),
    )
    .option("--back-to-back", "each reading begins at the last edge of the one before")
    .addOption(
      new Option("--dead-time <seconds>", "dead time between readings").argParser(
        numberFrom(0, true),
      ),
    );
}

/** What the command line and the descriptor beside a file say of its readings; the command line wins. */
export function readingsOptions(path: string, options: JudgeCommandOptions): ParseOptions {
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

/** `tickwright judge`: analyse readings, real or synthetic. */
export function judgeCommand(): Command {
  const command = newCommand("judge")
    .summary("analyse readings: rate, honest uncertainty, outliers, stability")
    .description(
      "Reads a counter's readings, real or synthetic, and tells the rate by three estimators with the " +
        "uncertainty that follows from the noise found, what spoils it, and how stable the clock is. " +
        "Columns looked for: period_s, frequency_hz, time_error_s, rate.",
    );
  return withReadingsOptions(command)
    .addOption(
      new Option(
        "--slip-unit <cycles>",
        "smallest slip; 0.2 where a fifth of a tick can be lost",
      ).argParser(numberFrom(0, false)),
    )
    .addOption(
      new Option(
        "--timebase <accuracy>",
        "how well the counter's time base is known, e.g. 1e-8",
      ).argParser(accuracyOption),
    )
    .option("--temperature <column>", "take the linear effect of this column (°C) out of the rate")
    .addOption(
      new Option("--within <accuracy>", "how much longer to go on for this accuracy").argParser(
        accuracyOption,
      ),
    )
    .addOption(
      new Option("--ahead <time>", "what the dial will be off by then, e.g. 30d").argParser(
        durationOption,
      ),
    )
    .addOption(
      new Option("--taus <which>", "averaging times")
        .choices(["octaves", "all"])
        .default("octaves"),
    )
    .option("--plot", "draw pictures (SVG)")
    .option("--out <folder>", "folder for the pictures (default: out/judge)")
    .option("--force", "replace pictures that are in the folder given with --out")
    .option("--json", "print the result as JSON")
    .addHelpText(
      "after",
      `
Examples:
  $ tickwright run observatory
  $ tickwright judge out/observatory-observatory-1/readings.csv --within 1e-9
  $ tickwright judge my-counter.txt --nominal-period 1 --gate 10 --back-to-back --ahead 30d
  $ tickwright run school-laboratory --out - | tickwright judge - --nominal-period 1`,
    )
    .action(judge);
}

function judge(path: string, options: JudgeCommandOptions): void {
  const said = describedReadings(path);
  const parseOptions = readingsOptions(path, options);
  const parsed = parseReadings(readText(path), parseOptions);
  let { readings } = parsed;
  let temperature: TemperatureFit | null = null;
  if (parsed.temperature !== null) {
    try {
      temperature = regressTemperature(readings, parsed.temperature);
    } catch (error) {
      if (error instanceof RangeError)
        throw new DataError(`${parseOptions.file}: ${afterName(error)}`);
      throw error;
    }
    readings = temperature.readings;
  }
  const slipUnit = options.slipUnit ?? said?.slipUnit;
  if (slipUnit !== undefined && slipUnit > 1) {
    throw new DataError("--slip-unit: must not be above 1 cycle");
  }
  const judgement = judgeReadings(readings, {
    systematicBound: options.timebase ?? said?.systematicBound ?? 0,
    taus: options.taus ?? "octaves",
    ...(slipUnit === undefined ? {} : { slipUnit }),
    ...(options.within === undefined ? {} : { within: options.within }),
    ...(options.ahead === undefined ? {} : { ahead: options.ahead }),
  });
  const files: Record<string, string> = {};
  if (options.plot) {
    const pictures = pictureFiles(
      readingPictures(readings, judgement.stability, {
        title: parseOptions.file,
        truth: null,
        slips: [],
        fallback: [],
      }),
    );
    const folder = new OutputFolder(
      options.out ?? "out/judge",
      pictures.map(({ file }) => file),
      options.out === undefined || options.force === true,
    );
    try {
      for (const { name, file, svg } of pictures) {
        folder.write(file, svg);
        files[`${name}_picture`] = `${folder.path}/${file}`;
      }
      folder.commit();
    } catch (error) {
      folder.abandon();
      throw error;
    }
  }
  if (options.json) {
    const fit = temperature && {
      coefficient_per_k: temperature.coefficient,
      standard_uncertainty: temperature.standardUncertainty,
      interval_95: temperature.interval95,
      mean_c: temperature.meanTemperature,
    };
    process.stdout.write(
      jsonText({ ...judgeToJson(judgement), temperature: fit, notes: parsed.notes, files }),
    );
    return;
  }
  process.stdout.write(printJudgement(judgement, temperature, parsed.notes, said?.cause ?? null));
  for (const file of Object.values(files)) process.stdout.write(`wrote ${file}\n`);
}

/** A caller's mistake in words for the user: without the name of the function. */
function afterName(error: RangeError): string {
  return error.message.replace(/^\w+: /, "");
}
