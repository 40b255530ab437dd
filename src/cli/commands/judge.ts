import { basename } from "node:path";
import type { Command } from "commander";
import { type JudgeOptions, judgeReadings, sourceClasses } from "../../judgement/index.ts";
import { expectedRecord } from "../../planning/index.ts";
import { type NoteCode, noteOf } from "../../readings/index.ts";
import { findingsToJson, jsonText, judgeToJson } from "../../view/table/index.ts";
import { describedBy, describedReadings } from "../described-readings.ts";
import { DataError } from "../failures.ts";
import { loadScenario } from "../load-scenario.ts";
import { examples, newCommand } from "../new-command.ts";
import {
  accuracyOption,
  type CommonOptions,
  choice,
  durationOption,
  numberFrom,
  renamed,
} from "../options.ts";
import { lookOf, type PictureOptions, withPictureOptions } from "../picture-options.ts";
import { print } from "../print.ts";
import { printJudgement } from "../print-judgement.ts";
import { readLogFile } from "../read-log-file.ts";
import {
  type ReadingsFileOptions,
  readingsOptions,
  withReadingsOptions,
} from "../readings-options.ts";
import { benchPictures, writePictures } from "../run-pictures.ts";
import { wroteLine } from "../style.ts";
import { judgedWithoutDrive } from "../without-drive.ts";

interface JudgeCommandOptions extends ReadingsFileOptions, PictureOptions, CommonOptions {
  readonly slipUnit?: number;
  readonly timebase?: number;
  readonly within?: number;
  readonly of?: "run" | "day" | "long";
  readonly scenario?: string;
  readonly source?: string;
  readonly sourceFloor?: number;
  readonly sourceWhiteFm?: number;
  readonly ahead?: number;
  readonly averagingTimes: "octaves" | "every";
}

/** `tickwright judge`: analyse readings, real or synthetic. */
export function judgeCommand(): Command {
  const command = newCommand("judge")
    .summary("analyse readings: rate, honest uncertainty, outliers, stability")
    .description(
      "Reads a counter's readings, real or synthetic, and tells the rate by three estimators with the " +
        "uncertainty that follows from the noise found, what spoils it, and how stable the clock is. " +
        "Any log will do: one number a line, a table, what a terminal shows; units that are written are obeyed.",
    );
  withReadingsOptions(command)
    .option(
      "--slip-unit <cycles>",
      "smallest slip; 0.2 where a fifth of a tick can be lost",
      numberFrom(0, false),
    )
    .option(
      "--timebase <accuracy>",
      "how well the counter's time base is known, e.g. 1e-8",
      accuracyOption,
    )
    .option("--temperature <column>", "take the linear effect of this column (°C) out of the rate")
    .option("--within <accuracy>", "how much longer to go on for this accuracy", accuracyOption)
    .option("--ahead <time>", "what the dial will be off by then, e.g. 30d", durationOption)
    .addOption(
      choice("--of <rate>", "which steady rate --within is about, or that of the run", [
        "run",
        "day",
        "long",
      ]),
    )
    .option(
      "--scenario <file>",
      "what is known of the chain: period, gate, counter, time base, noise; says whether the record agrees",
    )
    .addOption(
      choice(
        "--source <class>",
        "what the clock runs on: bounds of its kind, from memory",
        Object.keys(sourceClasses),
      ),
    )
    .option(
      "--source-floor <deviation>",
      "bound on the source's flicker floor (Allan deviation), e.g. 1e-11",
      numberFrom(0, false),
    )
    .option(
      "--source-white-fm <deviation>",
      "bound on its white FM: Allan deviation at 1 s, e.g. 3e-11",
      numberFrom(0, false),
    )
    .addOption(
      choice("--averaging-times <which>", "of the stability table and picture", [
        "octaves",
        "every",
      ]).default("octaves"),
    )
    .addOption(renamed("--taus <which>", "--averaging-times octaves|every"));
  return withPictureOptions(
    command,
    "draw pictures (SVG)",
    "folder for the pictures (default: out/judge)",
  )
    .addHelpText(
      "after",
      examples(
        "tickwright run observatory",
        "tickwright judge out/observatory-observatory-1/readings.csv --within 1e-9",
        "tickwright judge my-counter.txt --nominal-period 1 --gate 10 --back-to-back --ahead 30d",
        "tickwright run school-laboratory --out - | tickwright judge - --nominal-period 1",
      ),
    )
    .action(judge);
}

function judge(path: string, options: JudgeCommandOptions): void {
  const look = lookOf(options);
  const known = options.scenario === undefined ? null : loadScenario(options.scenario, []).scenario;
  const said = known === null ? describedReadings(path) : describedBy(known);
  const parseOptions = readingsOptions(path, options, said);
  const parsed = readLogFile(path, parseOptions);
  const { temperature: column, ...plain } = parsed.readings;
  const readings = options.temperature === undefined ? plain : parsed.readings;
  if (options.temperature !== undefined) requireChange(parseOptions.file, column);
  const notes = [...parsed.notes];
  const note = (code: NoteCode, message: string) => notes.push(noteOf(code, message));
  if (readings.kind === "period" && readings.backToBack && !readings.start && !readings.stamps) {
    note(
      "gap",
      "no times tell whether a line is missing: a lost one is found only where its step stands out of the noise, and may else pass for rate",
    );
  }
  const slipUnit = options.slipUnit ?? said?.slipUnit;
  if (slipUnit !== undefined && slipUnit > 1) {
    throw new DataError("--slip-unit: must not be above 1 cycle");
  }
  const expected = known && expectedRecord(known);
  if (typeof expected === "string") note("agreement", expected);
  const systematicBound = options.timebase ?? said?.systematicBound ?? 0;
  const judged = judgeReadings(readings, {
    systematicBound,
    known: knownOf(options),
    ...(expected === null || typeof expected === "string" ? {} : { expected }),
    ...(options.of === undefined ? {} : { of: options.of }),
    ...(said?.cause === undefined ? {} : { systematicCause: said.cause }),
    taus: options.averagingTimes === "every" ? "all" : "octaves",
    ...(slipUnit === undefined ? {} : { slipUnit }),
    ...(options.within === undefined ? {} : { within: options.within }),
    ...(options.ahead === undefined ? {} : { ahead: options.ahead }),
  });
  const judgement = judgedWithoutDrive(judged, parsed.fallback);
  const files: Record<string, string> = {};
  if (options.plot) {
    const title = options.title ?? basename(parseOptions.file);
    const known = { slipUnit: slipUnit ?? 1, systematicBound };
    const pictures = benchPictures(title, readings, known, judgement.stability, look);
    if (pictures.length === 0) note("pictures", "the record is too short for a picture");
    const mayReplace = options.out === undefined || options.force === true;
    const paths = writePictures(options.out ?? "out/judge", pictures, mayReplace);
    pictures.forEach(({ name }, i) => {
      files[`${name}_picture`] = paths[i]!;
    });
  }
  if (options.json) {
    const fit = judgement.temperature && {
      coefficient_per_k: judgement.temperature.estimate,
      standard_uncertainty: (judgement.temperature.high - judgement.temperature.low) / 3.92,
      interval_95: [judgement.temperature.low, judgement.temperature.high],
      mean_c: judgement.temperature.mean,
    };
    print(
      jsonText({
        ...judgeToJson(judgement),
        temperature: fit,
        read: parsed.detected,
        notes: [...notes, ...findingsToJson(judgement.findings, readings.line)],
        files,
      }),
    );
    return;
  }
  const { within = null } = options;
  const read = { ...parsed, readings, notes };
  print(printJudgement(judgement, read, within));
  for (const file of Object.values(files)) print(`${wroteLine(file)}\n`);
}

/** What is said of the source: a class, and bounds that go before those of the class. */
function knownOf({
  source,
  sourceFloor,
  sourceWhiteFm,
}: JudgeCommandOptions): NonNullable<JudgeOptions["known"]> {
  return {
    ...(source === undefined ? {} : sourceClasses[source]),
    ...(sourceFloor === undefined ? {} : { floor: sourceFloor }),
    ...(sourceWhiteFm === undefined ? {} : { whiteFm: sourceWhiteFm }),
  };
}

/** A coefficient needs temperatures that change. */
function requireChange(file: string, temperature: Float64Array | undefined): void {
  const known = temperature?.filter((t) => !Number.isNaN(t)) ?? new Float64Array(0);
  if (known.length < 10) {
    throw new DataError(
      `${file}: --temperature: at least 10 readings with a temperature are needed, got ${known.length}`,
    );
  }
  if (known.every((t) => Math.abs(t - known[0]!) < 1e-9)) {
    throw new DataError(`${file}: --temperature: temperature must change, got a constant`);
  }
}
