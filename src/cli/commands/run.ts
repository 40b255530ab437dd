import { join } from "node:path";
import type { Command } from "commander";
import { settleRun } from "../../chain/index.ts";
import { raceOfScenario, raceWarning } from "../../planning/index.ts";
import type { Recording, Warning } from "../../scenario/index.ts";
import { dataPackage, jsonText } from "../../view/table/index.ts";
import { exitCode } from "../exit-code.ts";
import { UsageError } from "../failures.ts";
import { watchSignals } from "../interrupt.ts";
import { type LoadedScenario, loadScenario } from "../load-scenario.ts";
import { examples, newCommand } from "../new-command.ts";
import {
  choice,
  durationOption,
  integerFrom,
  numberFrom,
  recordingOption,
  type ScenarioOptions,
  withScenarioOptions,
} from "../options.ts";
import { OutputFolder, packageName } from "../output-folder.ts";
import { PacedSink } from "../paced-sink.ts";
import { lookOf, type PictureOptions, withPictureOptions } from "../picture-options.ts";
import { print, standardOutput } from "../print.ts";
import { printRun } from "../print-run.ts";
import { printWarnings } from "../print-warnings.ts";
import { progress } from "../progress.ts";
import { created, provenanceOf } from "../provenance.ts";
import { dataFiles, tableFile, tableNames } from "../run-files.ts";
import { runPictureFiles, runPictures } from "../run-pictures.ts";
import { runSummary } from "../run-summary.ts";
import { sealed } from "../seal.ts";
import { chooseSeed, folderPart } from "../seed.ts";
import { simulate } from "../simulate.ts";
import { textSink } from "../text-sink.ts";

interface RunCommandOptions extends ScenarioOptions, PictureOptions {
  readonly length?: number;
  readonly readings?: number;
  readonly gate?: string;
  readonly deadTime?: string;
  readonly input?: string;
  readonly recording?: Recording;
  readonly pace?: number;
  readonly ticks?: boolean;
  readonly bursts?: boolean;
}

/** `tickwright run`: simulate a scenario and write the counter's readings. */
export function runCommand(): Command {
  const command = newCommand("run")
    .summary("simulate a scenario and write the counter's readings")
    .description(
      "Simulates the chain of a scenario and writes the counter's readings (readings.csv) with a " +
        "descriptor (datapackage.json) that holds provenance and truth.",
    );
  withScenarioOptions(command)
    .option("--length <time>", "simulated length, e.g. 20000, 6h, 30d", durationOption)
    .option("--readings <count>", "end after so many readings", integerFrom(1))
    .option("--gate <seconds>", "gate of the counter in s, or single")
    .option("--dead-time <seconds>", "dead time of the counter in s; 0: back to back")
    .addOption(
      choice("--input <stage>", "what the counter watches", ["clock", "synthesizer", "reference"]),
    )
    .addOption(recordingOption())
    .option(
      "--pace <factor>",
      "with --out -: each reading when it is due; 1: in real time, 60: a minute a second",
      numberFrom(0, false),
    )
    .option("--ticks", "write ticks.csv too")
    .option("--bursts", "write bursts.csv too");
  return withPictureOptions(
    command,
    "draw pictures (SVG) too",
    "folder for the results, - for CSV to stdout (default: out/<scenario>-<seed>)",
  )
    .addHelpText(
      "after",
      examples(
        "tickwright run observatory",
        "tickwright run observatory --readings 100 --seed 7 --out -",
        "tickwright run station-dial --ticks --bursts --set drive.drop_probability=0.001",
        "tickwright run school-laboratory --readings 20 --pace 60 --out -",
        "tickwright run reference-direct --gate 1 --length 1h --json",
      ),
    )
    .action(async (where: string, options: RunCommandOptions) => run(where, options));
}

async function run(where: string, options: RunCommandOptions): Promise<void> {
  const look = lookOf(options);
  if (options.pace !== undefined && options.out !== "-") {
    throw new UsageError("--pace goes with --out -: readings to standard output as they come");
  }
  const loaded = loadScenario(where, options.set ?? [], {
    "--gate": ["counter.gate_s", options.gate],
    "--dead-time": ["counter.dead_time_s", options.deadTime],
    "--input": ["counter.input", options.input],
    "--length": ["length_s", options.length?.toString()],
  });
  const seed = chooseSeed(options.seed, loaded.scenario.seed);
  const { options: settled, forcedBy } = settleRun(loaded.scenario, {
    seed,
    length: options.length ?? null,
    readings: options.readings ?? null,
    recording: options.recording ?? null,
    wantsTicks: options.ticks === true,
    wantsBursts: options.bursts === true,
  });
  const warnings: Warning[] = [...loaded.warnings];
  if (forcedBy !== null) {
    warnings.push({
      code: "recording_forced",
      path: "recording",
      message: `is ${settled.recording} because of ${forcedBy}: the draws differ from those of a run without`,
    });
  }
  const race = raceOfScenario(loaded.scenario);
  if (race !== null) warnings.push(raceWarning(race));
  if (!options.quiet) printWarnings(warnings);
  watchSignals();
  const bar = progress("simulating", options.quiet === true || options.out === "-");
  const { scenario } = loaded;
  if (options.out === "-") {
    const whole = textSink({ fd: 1, path: standardOutput });
    const readings = options.pace === undefined ? whole : new PacedSink(whole, options.pace);
    const outcome = await simulate(scenario, settled, { readings, ticks: null, bursts: null }, bar);
    if (outcome.wasInterrupted) process.exitCode = exitCode.interrupted;
    return;
  }

  const path = options.out ?? join("out", `${folderPart(loaded.name)}-${folderPart(seed)}`);
  const wanted = tableNames.filter((name) => name === "readings" || options[name] === true);
  const isDefaultFolder = options.out === undefined;
  const pictured = options.plot ? runPictureFiles : [];
  const logged = scenario.log ? [tableFile("log")] : [];
  const names = [...wanted.map(tableFile), ...logged, ...pictured, packageName];
  const folder = new OutputFolder(path, names, isDefaultFolder || options.force === true);
  try {
    const tables = {
      readings: folder.open(tableFile("readings")),
      ticks: options.ticks ? folder.open(tableFile("ticks")) : null,
      bursts: options.bursts ? folder.open(tableFile("bursts")) : null,
      log: scenario.log ? folder.open(tableFile("log")) : null,
    };
    const outcome = await simulate(scenario, settled, tables, bar);
    const files: Record<string, string> = {};
    for (const name of wanted) files[name] = join(path, tableFile(name));
    if (scenario.log) files.log = join(path, tableFile("log"));
    files.datapackage = join(path, packageName);
    const pictures = options.plot
      ? runPictures(scenario, outcome, { ...look, title: options.title })
      : [];
    if (options.plot && pictures.length === 0) {
      const none = {
        code: "no_picture",
        path: "--plot",
        message: "the run is too short for a picture",
      };
      warnings.push(none);
      if (!options.quiet) printWarnings([none]);
    }
    for (const picture of pictures) {
      folder.write(picture.file, picture.svg);
      files[`${picture.name}_picture`] = join(path, picture.file);
    }
    const summary = runSummary(loaded.name, scenario, settled, outcome, files, warnings);
    folder.write(packageName, descriptor(loaded, settled, outcome, summary));
    folder.commit([...[...tableNames, "log"].map(tableFile), ...runPictureFiles]);
    if (options.json) print(jsonText(summary));
    else print(printRun(scenario, settled, summary, outcome));
    if (outcome.wasInterrupted) process.exitCode = exitCode.interrupted;
  } catch (error) {
    folder.abandon();
    throw error;
  }
}

function descriptor(
  loaded: LoadedScenario,
  settled: Parameters<typeof provenanceOf>[1],
  outcome: Parameters<typeof provenanceOf>[2],
  summary: Parameters<typeof provenanceOf>[3],
): string {
  const { scenario, name } = loaded;
  const isTimeInterval = scenario.counter.technique === "time_interval";
  return jsonText(
    sealed(
      dataPackage({
        name: `${name.toLowerCase().replace(/[^a-z0-9._-]+/g, "-")}-readings`,
        title: scenario.title,
        description:
          "Simulated readings of a clock-drive chain, with their provenance and the truth",
        created: created(),
        command: process.argv.slice(2),
        files: dataFiles(outcome, isTimeInterval),
        provenance: provenanceOf(loaded, settled, outcome, summary),
      }),
    ),
  );
}
