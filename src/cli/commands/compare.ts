import { createHash } from "node:crypto";
import { basename } from "node:path";
import type { Command } from "commander";
import { compareRecords } from "../../judgement/index.ts";
import { ratesChart } from "../../view/chart/index.ts";
import { compareToJson, jsonText } from "../../view/table/index.ts";
import { humanDuration } from "../../view/words/index.ts";
import { DataError, UsageError } from "../failures.ts";
import {
  type JudgeLogOptions,
  judgedToJson,
  judgeLog,
  logTerms,
  withJudgeOptions,
} from "../judge-log.ts";
import { examples, newCommand } from "../new-command.ts";
import { accuracyOption, type CommonOptions } from "../options.ts";
import { lookOf, type PictureOptions, withPictureOptions } from "../picture-options.ts";
import { print } from "../print.ts";
import { comparisonInWords, printComparison } from "../print-comparison.ts";
import { readLogFile } from "../read-log-file.ts";
import { withReadingsOptions } from "../readings-options.ts";
import { type ReportOptions, withReportOptions, writeReport } from "../report-options.ts";
import { pictureFiles, writePictures } from "../run-pictures.ts";
import { partsOf, wroteLine } from "../style.ts";

interface CompareCommandOptions
  extends JudgeLogOptions,
    PictureOptions,
    ReportOptions,
    CommonOptions {
  readonly sameTimebase?: boolean;
  readonly timebaseMoves?: number;
}

/** `tickwright compare`: whether two or more records differ. */
export function compareCommand(): Command {
  const command = newCommand("compare")
    .summary("whether two or more records differ, and by how much")
    .description(
      "Judges each record and compares their rates, with intervals that hold for all pairs together. Whether two differ " +
        "is judged on the steady rates: one clock that wanders does not differ from itself. Options hold for all records.",
    );
  withReadingsOptions(command, "logs of readings, two or more", "<readings...>");
  withJudgeOptions(command)
    .option("--same-timebase", "one time base was under all, so that what it is off by cancels")
    .option("--timebase-moves <accuracy>", "how far that may have moved meanwhile", accuracyOption);
  withReportOptions(command);
  return withPictureOptions(
    command,
    "draw the rates at three scales (SVG)",
    "folder for the picture (default: out/compare)",
  )
    .addHelpText(
      "after",
      examples(
        "tickwright run observatory --quiet --out driven",
        "tickwright run reference-direct --quiet --out direct",
        "tickwright compare driven/readings.csv direct/readings.csv --same-timebase",
      ),
    )
    .action(compare);
}

function compare(paths: readonly string[], options: CompareCommandOptions): void {
  const look = lookOf({ ...options, plot: options.plot === true || options.report !== undefined });
  if (paths.length < 2) throw new UsageError("two records or more are compared; give another one");
  const { sameTimebase = false, timebaseMoves } = options;
  if (timebaseMoves !== undefined && !sameTimebase) {
    throw new UsageError(
      "--timebase-moves is about one time base under all: give --same-timebase too",
    );
  }
  const names = namesOf(paths);
  const records = paths.map((path, i) => {
    const terms = logTerms(path, options);
    const hash = createHash("sha256");
    const judged = judgeLog(
      readLogFile(path, terms.log, (piece) => hash.update(piece)),
      terms,
    );
    const { headline, estimates } = judged.judgement;
    if (headline === null) {
      throw new DataError(
        `${path}: has no rate to compare: ${estimates[0]?.why ?? "too few readings"}`,
      );
    }
    const sha256 = hash.digest("hex");
    return { name: names[i]!, file: path, judged, judgement: judged.judgement, sha256 };
  });
  const moves = timebaseMoves ?? 0;
  const comparison = compareRecords(
    records.map(({ judgement }) => judgement),
    { sameTimebase, timebaseMoves: moves },
  );
  const rates = records.map(({ name, judgement }) => ({ name, ...judgement.headline!.steady }));
  const title = options.title ?? "";
  const node = ratesChart(rates, { ...look, title, idPrefix: "rates" });
  const text = () => printComparison(records, comparison, { same: sameTimebase, moves });
  const files: Record<string, string> = {};
  if (options.plot) {
    const mayReplace = options.out === undefined || options.force === true;
    const picture = pictureFiles([{ name: "compare", node }]);
    files.compare_picture = writePictures(options.out ?? "out/compare", picture, mayReplace)[0]!;
  }
  const report = writeReport(options, () => ({
    title: title || `Comparison of ${names.join(", ")}`,
    answer: comparisonInWords(records, comparison),
    pictures: [node],
    facts: records.map(({ name, judged: { judgement, read } }) => [
      name,
      [
        `${judgement.readings} readings in ${humanDuration(judgement.headline!.duration)}; read: ${read.detected}.`,
        ...read.notes.map(({ message }) => `Note: ${message}.`),
      ],
    ]),
    // The last paragraph is the picture in letters.
    details: partsOf(text).slice(1, -1),
    inputs: records.map(({ file, sha256 }) => ({ file, sha256 })),
  }));
  Object.assign(files, report);
  if (options.json) {
    const told = records.map(({ file, judged, judgement }) => ({
      file,
      judgement,
      notes: judgedToJson(judged).notes,
    }));
    print(jsonText({ ...compareToJson(told, comparison), files }));
    return;
  }
  print(text());
  for (const file of Object.values(files)) print(`\n${wroteLine(file)}\n`);
}

/** Names of files without what all have in common: their endings, or the folders where only those differ. */
function namesOf(paths: readonly string[]): string[] {
  const short = paths.map((path) => basename(path).replace(/\.\w+$/, ""));
  if (new Set(short).size === paths.length) return short;
  const folders = paths.map((path) => path.split("/").at(-2) ?? path);
  return new Set(folders).size === paths.length ? folders : [...paths];
}
