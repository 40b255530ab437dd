import { existsSync } from "node:fs";
import { join } from "node:path";
import type { Command } from "commander";
import type { Recording } from "../../scenario/index.ts";
import { plainText } from "../../view/chart/index.ts";
import type { SweepRequest } from "../../view/table/index.ts";
import { doSweep } from "../ensemble/do-sweep.ts";
import { tellSweep } from "../ensemble/print-sweep.ts";
import { coresAtHand } from "../ensemble/run-ensemble.ts";
import {
  differencesOf,
  readSweepProvenance,
  removeLeftovers,
  summaryLines,
  summaryName,
} from "../ensemble/sweep-folder.ts";
import { hasJournal, SweepJournal } from "../ensemble/sweep-journal.ts";
import { parseShard, rowsOf, runOfRow, runsOf, type SweepPlan } from "../ensemble/sweep-plan.ts";
import { SweepScenarios } from "../ensemble/sweep-scenarios.ts";
import { SweepTally } from "../ensemble/sweep-tally.ts";
import { parseVary } from "../ensemble/vary.ts";
import { writeSweep } from "../ensemble/write-sweep.ts";
import { exitCode } from "../exit-code.ts";
import { UsageError } from "../failures.ts";
import { watchSignals } from "../interrupt.ts";
import { type LoadedScenario, loadScenario } from "../load-scenario.ts";
import { examples, newCommand } from "../new-command.ts";
import {
  durationOption,
  gather,
  integerFrom,
  recordingOption,
  type ScenarioOptions,
  withScenarioOptions,
} from "../options.ts";
import { OutputFolder, packageName } from "../output-folder.ts";
import { printWarnings } from "../print-warnings.ts";
import { progress } from "../progress.ts";
import { chooseSeed, folderPart } from "../seed.ts";
import { version } from "../version.ts";

interface SweepCommandOptions extends ScenarioOptions {
  readonly vary?: readonly string[];
  readonly seeds: number;
  readonly length?: number;
  readonly readings?: number;
  readonly recording?: Recording;
  readonly workers?: number;
  readonly shard?: string;
  readonly resume?: boolean;
  readonly out?: string;
  readonly force?: boolean;
}

/** `tickwright sweep`: ensembles of runs over values and seeds. */
export function sweepCommand(): Command {
  const command = newCommand("sweep")
    .summary("simulate many runs over values and seeds, on all cores")
    .description(
      "Simulates every combination of the values given with --vary, each with the same seeds, on all " +
        "cores, and writes a row a run: what the estimators found, what they said of their own " +
        "uncertainty, and the truth. The rows do not depend on the number of workers.",
    );
  return withScenarioOptions(command)
    .option(
      "--vary <path=values>",
      "key of the scenario and its values, parted by commas; repeatable",
      gather,
    )
    .option("--seeds <count>", "runs of each combination", integerFrom(1), 1)
    .option("--length <time>", "simulated length of a run, e.g. 20000, 6h", durationOption)
    .option("--readings <count>", "end a run after so many readings", integerFrom(1))
    .addOption(recordingOption())
    .option("--workers <count>", "threads (default: one a core)", integerFrom(1))
    .option("--shard <I/N>", "do part I of N only; merge joins the parts")
    .option("--resume", "go on with a sweep that was interrupted, or begin where there is none")
    .option("--out <folder>", "folder for the results (default: out/<scenario>-<seed>-sweep)")
    .option("--force", "replace what is in the folder")
    .addHelpText(
      "after",
      examples(
        "tickwright sweep observatory --vary counter.gate_s=10,50,200 --seeds 20",
        "tickwright sweep school-laboratory --vary counter.dead_time_s=0,0.5 --length 600 --json",
        "tickwright sweep school-laboratory --seeds 40 --length 600 --shard 1/2 --out part-1 --resume",
        "tickwright sweep school-laboratory --seeds 40 --length 600 --shard 2/2 --out part-2 --resume",
      ),
    )
    .action(async (where: string, options: SweepCommandOptions) => sweep(where, options));
}

async function sweep(where: string, options: SweepCommandOptions): Promise<void> {
  const sets = options.set ?? [];
  const loaded = loadScenario(where, sets);
  const plan = planOf(loaded, options);
  const scenarios = new SweepScenarios(loaded, where, sets, plan);
  const warnings = scenarios.check();
  if (!options.quiet) printWarnings(warnings);
  const request = requestOf(loaded, sets, plan);
  const rows = rowsOf(plan);
  const { index, count } = plan.shard;
  const part = count === 1 ? "" : `-${index}-of-${count}`;
  const path =
    options.out ?? join("out", `${folderPart(loaded.name)}-${folderPart(plan.seed)}-sweep${part}`);
  const files = [summaryName, packageName].map((name) => join(path, name));
  const tell = (tally: SweepTally, written: readonly string[]) =>
    tellSweep(
      {
        title: loaded.scenario.title,
        plan,
        rows,
        tally,
        summary: files[0]!,
        files: written,
        warnings,
      },
      options.json,
    );

  if (options.resume && !hasJournal(path) && isFinished(path, request, plan)) {
    const tally = new SweepTally(plan);
    let row = 0;
    for (const line of summaryLines(files[0]!)) tally.add(runOfRow(plan.shard, row++), line);
    if (!options.quiet) process.stderr.write("All runs are there already.\n");
    tell(tally, []);
    return;
  }
  if (hasJournal(path) && !options.resume && !options.force) {
    throw new UsageError(
      `${path}: an unfinished sweep is there; go on with it by --resume, or give --force to begin anew`,
    );
  }
  watchSignals();
  const isAnew = options.force === true && !options.resume;
  const mayReplace = isAnew || hasJournal(path);
  const folder = new OutputFolder(path, [summaryName, packageName], mayReplace);
  try {
    removeLeftovers(path);
    const header = JSON.stringify({ request, shard: plan.shard });
    const journal = new SweepJournal(path, header, rows, isAnew);
    compareHeader(journal.header, request, plan, path);
    const before = journal.count;
    const bar = progress("sweeping", options.quiet === true);
    const isComplete = await doSweep(
      plan,
      scenarios,
      journal,
      options.workers ?? coresAtHand(),
      bar,
    );
    if (!isComplete) {
      journal.close();
      folder.abandon();
      process.stderr.write(
        plainText(
          `Interrupted: ${journal.count} of ${rows} runs are kept in ${path}; --resume goes on with them.\n`,
        ),
      );
      process.exitCode = exitCode.interrupted;
      return;
    }
    if (before > 0 && !options.quiet)
      process.stderr.write(`${before} of ${rows} runs were there.\n`);
    const text = {
      title: loaded.scenario.title,
      name: loaded.name,
      scenarioText: loaded.text,
      request,
    };
    const { tally } = writeSweep(folder, plan, text, linesOf(journal, rows));
    folder.commit();
    journal.remove();
    tell(tally, files);
  } catch (error) {
    folder.abandon();
    throw error;
  }
}

function planOf(loaded: LoadedScenario, options: SweepCommandOptions): SweepPlan {
  const varied = (options.vary ?? []).map(parseVary);
  if (varied.length === 0 && options.seeds === 1) {
    throw new UsageError("nothing is varied: give --vary PATH=V1,V2,.. or --seeds");
  }
  const twice = varied.find(({ path }, i) => varied.findIndex((other) => other.path === path) < i);
  if (twice)
    throw new UsageError(`--vary ${twice.path}: is there twice; give all its values at once`);
  const seed = options.seed ?? loaded.scenario.seed;
  if (seed === null && (options.shard !== undefined || options.resume)) {
    const why =
      options.shard === undefined ? "it goes on with the same seeds" : "all parts share it";
    throw new UsageError(`the scenario has no seed of its own: give --seed, so that ${why}`);
  }
  // biome-ignore lint/suspicious/noControlCharactersInRegex: line breaks and the like are what it looks for
  if (/[\u0000-\u001f\u007f]/.test(seed ?? "")) {
    throw new UsageError("--seed: must not have a line break or control character in it");
  }
  const values = varied.flatMap(({ texts }) => texts).filter((text) => Number.isNaN(Number(text)));
  for (const text of [seed ?? "", ...values]) {
    if (!/^[=+\-@]/.test(text)) continue;
    throw new UsageError(
      `${JSON.stringify(text)}: would be run as a formula where a spreadsheet opens ${summaryName}; let it begin with a letter or digit`,
    );
  }
  const plan = {
    varied,
    seed: chooseSeed(options.seed, loaded.scenario.seed),
    seeds: options.seeds,
    length: options.length ?? null,
    readings: options.readings ?? null,
    recording: options.recording ?? null,
    shard: options.shard === undefined ? { index: 1, count: 1 } : parseShard(options.shard),
  };
  if (rowsOf(plan) === 0) {
    throw new UsageError(
      `--shard ${options.shard}: a sweep of ${runsOf(plan)} runs has no part ${plan.shard.index}; use no more parts than runs`,
    );
  }
  return plan;
}

function requestOf(loaded: LoadedScenario, sets: readonly string[], plan: SweepPlan): SweepRequest {
  return {
    version,
    scenario_sha256: loaded.sha256,
    set: sets,
    vary: plan.varied.map(({ path, texts }) => ({ path, values: texts })),
    seed: plan.seed,
    seeds: plan.seeds,
    length_s: plan.length,
    readings_wanted: plan.readings,
    recording: plan.recording,
    runs: runsOf(plan),
  };
}

/** Whether a folder holds this very sweep, finished. */
function isFinished(path: string, request: SweepRequest, plan: SweepPlan): boolean {
  if (!existsSync(path)) return false;
  const found = readSweepProvenance(path);
  if (found === null) return false;
  compareHeader(JSON.stringify(found), request, plan, path);
  return true;
}

function compareHeader(header: string, request: SweepRequest, plan: SweepPlan, path: string): void {
  const found = JSON.parse(header) as Pick<
    NonNullable<ReturnType<typeof readSweepProvenance>>,
    "request" | "shard"
  >;
  const differences = differencesOf(found.request, request);
  const { index, count } = plan.shard;
  if (found.shard.index !== index || found.shard.count !== count) differences.push("--shard");
  if (differences.length > 0) {
    throw new UsageError(
      `${path}: the sweep there is another one; it differs in ${differences.join(", ")}`,
    );
  }
}

function* linesOf(journal: SweepJournal, rows: number): Generator<string, void, undefined> {
  for (let row = 0; row < rows; row++) yield journal.read(row);
}
