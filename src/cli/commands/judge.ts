import { createHash } from "node:crypto";
import { basename } from "node:path";
import type { Command } from "commander";
import { noteOf } from "../../readings/index.ts";
import { jsonText } from "../../view/table/index.ts";
import {
  type JudgeLogOptions,
  judgedToJson,
  judgeLog,
  logTerms,
  withJudgeOptions,
} from "../judge-log.ts";
import { judgementReport } from "../judgement-report.ts";
import { examples, newCommand } from "../new-command.ts";
import { accuracyOption, type CommonOptions, choice, durationOption, renamed } from "../options.ts";
import { lookOf, type PictureOptions, withPictureOptions } from "../picture-options.ts";
import { print } from "../print.ts";
import { printJudgement } from "../print-judgement.ts";
import { readLogFile } from "../read-log-file.ts";
import { withReadingsOptions } from "../readings-options.ts";
import { type ReportOptions, withReportOptions, writeReport } from "../report-options.ts";
import { benchNodes, pictureFiles, writePictures } from "../run-pictures.ts";
import { wroteLine } from "../style.ts";

interface JudgeCommandOptions
  extends JudgeLogOptions,
    PictureOptions,
    ReportOptions,
    CommonOptions {
  readonly within?: number;
  readonly of?: "run" | "day" | "long";
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
  withReadingsOptions(command);
  withJudgeOptions(command)
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
    .addOption(
      choice("--averaging-times <which>", "of the stability table and picture", [
        "octaves",
        "every",
      ]).default("octaves"),
    )
    .addOption(renamed("--taus <which>", "--averaging-times octaves|every"));
  withReportOptions(command);
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
        "tickwright judge out/observatory-observatory-1/readings.csv --report rate.html --by A.N.",
        "tickwright judge my-counter.txt --nominal-period 1 --gate 10 --back-to-back --ahead 30d",
        "tickwright run school-laboratory --out - | tickwright judge - --nominal-period 1",
      ),
    )
    .action(judge);
}

function judge(path: string, options: JudgeCommandOptions): void {
  const look = lookOf({ ...options, plot: options.plot === true || options.report !== undefined });
  const terms = logTerms(path, options);
  const hash = createHash("sha256");
  const parsed = readLogFile(path, terms.log, (piece) => hash.update(piece));
  const { within, of, ahead } = options;
  const judged = judgeLog(parsed, terms, {
    temperature: options.temperature !== undefined,
    ...(of === undefined ? {} : { of }),
    taus: options.averagingTimes === "every" ? "all" : "octaves",
    ...(within === undefined ? {} : { within }),
    ...(ahead === undefined ? {} : { ahead }),
  });
  const { judgement, read } = judged;
  const files: Record<string, string> = {};
  const notes = [...read.notes];
  const title = options.title ?? basename(terms.log.file);
  const { slipUnit = 1, systematicBound } = terms.known;
  const { stability } = judgement;
  const pictures = (size = look) =>
    benchNodes(title, read.readings, { slipUnit, systematicBound }, stability, size);
  if (options.plot) {
    const drawn = pictureFiles(pictures());
    if (drawn.length === 0) {
      notes.push(noteOf("pictures", "the record is too short for a picture"));
    }
    const mayReplace = options.out === undefined || options.force === true;
    const paths = writePictures(options.out ?? "out/judge", drawn, mayReplace);
    drawn.forEach(({ name }, i) => {
      files[`${name}_picture`] = paths[i]!;
    });
  }
  const told = { judgement, read: { ...read, notes } };
  const report = writeReport(options, () => ({
    ...judgementReport(told, { title, within: within ?? null, of: of ?? "long" }, pictures()),
    inputs: [{ file: terms.log.file, sha256: hash.digest("hex") }],
  }));
  Object.assign(files, report);
  if (options.json) {
    print(jsonText({ ...judgedToJson(told), files }));
    return;
  }
  print(printJudgement(judgement, told.read, within ?? null));
  for (const file of Object.values(files)) print(`${wroteLine(file)}\n`);
}
