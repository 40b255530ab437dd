import type { Command } from "commander";
import { stringify } from "yaml";
import {
  cleanReadings,
  type FittedParameter,
  fitNoise,
  fittedScenario,
  type NoiseFit,
} from "../../judgement/index.ts";
import type { MadeReadings } from "../../log/index.ts";
import { shortNumber } from "../../numeric/index.ts";
import { type Note, noteOf } from "../../readings/index.ts";
import { jsonText } from "../../view/table/index.ts";
import { describedReadings } from "../described-readings.ts";
import { DataError } from "../failures.ts";
import { examples, newCommand } from "../new-command.ts";
import type { CommonOptions } from "../options.ts";
import { writeFile } from "../output-folder.ts";
import { print } from "../print.ts";
import { readLogFile } from "../read-log-file.ts";
import {
  type ReadingsFileOptions,
  readingsOptions,
  withReadingsOptions,
} from "../readings-options.ts";
import { textTable, wrap, wroteLine } from "../style.ts";

interface FitCommandOptions extends ReadingsFileOptions, CommonOptions {
  readonly title?: string;
  readonly out?: string;
  readonly force?: boolean;
}

/** `tickwright fit`: noise parameters from readings, as a scenario that `run` and `plan` accept. */
export function fitCommand(): Command {
  const command = newCommand("fit")
    .summary("noise parameters from readings, as a scenario for run and plan")
    .description(
      "Fits offset, ageing and noise levels to readings and prints them, each with its 95 % interval, " +
        "as a scenario (YAML) that run and plan accept. What readings alone cannot tell apart is said.",
    );
  return withReadingsOptions(command)
    .option("--title <text>", "title of the scenario")
    .option("--out <file>", "write the scenario to this file instead of printing it")
    .option("--force", "replace the file given with --out")
    .addHelpText(
      "after",
      examples(
        "tickwright run school-laboratory --out fit-me --force",
        "tickwright fit fit-me/readings.csv",
        "tickwright fit fit-me/readings.csv --out fitted.yaml --force",
        "tickwright plan fitted.yaml --within 1e-7",
      ),
    )
    .action(fit);
}

function fit(path: string, options: FitCommandOptions): void {
  const parseOptions = readingsOptions(path, options);
  const read = readLogFile(path, parseOptions);
  const { readings } = read;
  const { without } = cleanReadings(readings, describedReadings(path)?.slipUnit ?? 1);
  let found: NoiseFit;
  try {
    found = fitNoise(without);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new DataError(`${parseOptions.file}: ${error.message.replace(/^\w+: /, "")}`);
  }
  const scenario = fittedScenario(
    found,
    without,
    options.title ?? `Fitted to ${parseOptions.file}`,
  );
  const text = `${comments(found, read)}${plainNumbers(stringify(scenario, { lineWidth: 100 }))}`;
  if (options.out !== undefined) writeFile(options.out, text, options.force === true);
  if (options.json) {
    print(jsonText({ schema_version: 1, ...fitToJson(found, read), scenario }));
  } else if (options.out === undefined) {
    print(text);
  } else {
    print(`${summary(found, read)}${wroteLine(options.out)}\n`);
  }
}

const names: readonly (readonly [keyof NoiseFit, string, string])[] = [
  ["fractionalOffset", "fractional_offset", "rate"],
  ["edgeJitter", "edge_jitter_s", "timing noise of an edge, s"],
  ["readingNoise", "reading_noise", "noise of a reading"],
  ["whiteFm", "white_fm_adev_1s", "white FM at 1 s"],
  ["flickerFm", "flicker_fm_adev", "flicker FM floor"],
  ["randomWalkFm", "random_walk_fm_adev_1s", "random-walk FM at 1 s"],
];

function fitToJson(found: NoiseFit, read: MadeReadings) {
  const parameters = names.map(([key, name]) => {
    const parameter = found[key] as FittedParameter | null;
    return [
      name,
      parameter && { value: parameter.value, interval_95: [parameter.low, parameter.high] },
    ];
  });
  const ofFit = (message: string): Note => noteOf("fit", message);
  return {
    // What the model does not fit keeps its key.
    parameters: { ...Object.fromEntries(parameters), aging_per_day: null, flicker_pm_h1_s2: null },
    read: read.detected,
    notes: [...read.notes, ...found.notes.map(ofFit)],
  };
}

function rowsOf(found: NoiseFit): string[][] {
  return names.flatMap(([key, , words]) => {
    const parameter = found[key] as FittedParameter | null;
    if (parameter === null) return [];
    const shown = (value: number) => shortNumber(value, 3);
    const { value, low, high } = parameter;
    return [[words, shown(value), `${shown(low)} … ${shown(high)}`]];
  });
}

const table = (found: NoiseFit) => textTable([["", "value", "95 %"], ...rowsOf(found)]);

/** What was read, what the fit found, and what is to be told of either; lines that fit into a comment. */
function summary(found: NoiseFit, read: MadeReadings): string {
  const notes = [...read.notes.map(({ message }) => message), ...found.notes];
  const lines = [`Read: ${read.detected}.`, ...notes.map((note) => `Note: ${note}.`)];
  const [first, ...rest] = lines.map((line) => wrap(line, 78, "  "));
  return `${[first, table(found).trimEnd(), ...rest].join("\n")}\n`;
}

/** What the fit found, as comments of the scenario. */
function comments(found: NoiseFit, read: MadeReadings): string {
  const lines = summary(found, read).trimEnd().split("\n");
  return `${lines.map((line) => `# ${line}`.trimEnd()).join("\n")}\n`;
}

/** Numbers of a YAML text in nine digits, which no fit exceeds, and small ones with an exponent. */
function plainNumbers(yaml: string): string {
  return yaml.replace(/(?<=: )-?\d+\.?\d*(?:e[+-]?\d+)?$/gm, (text) => {
    const value = Number(Number(text).toPrecision(9));
    const isSmall = value !== 0 && Math.abs(value) < 1e-3;
    return isSmall ? value.toExponential() : String(value);
  });
}
