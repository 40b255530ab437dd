import { join } from "node:path";
import { type Command, InvalidArgumentError, Option } from "commander";
import {
  budget,
  halfWidth,
  noNoise,
  type Prediction,
  planAccuracies,
  planLengths,
  predict,
  type RunLength,
  type Strategy,
  systematicBound,
} from "../../planning/index.ts";
import type { Scenario } from "../../scenario/index.ts";
import { planPicture } from "../../view/report/index.ts";
import {
  jsonText,
  predictionToJson,
  strategyToJson,
  type VerifiedRow,
} from "../../view/table/index.ts";
import { dialOfPlan } from "../ensemble/dial-of-plan.ts";
import { type PlanRow, printPlan } from "../ensemble/print-plan.ts";
import { coresAtHand } from "../ensemble/run-ensemble.ts";
import { type Claim, type Verdict, verifyPlan } from "../ensemble/verify-plan.ts";
import { exitCode } from "../exit-code.ts";
import { UsageError } from "../failures.ts";
import { loadScenario } from "../load-scenario.ts";
import { examples, newCommand } from "../new-command.ts";
import {
  accuracyOption,
  durationOption,
  integerFrom,
  type ScenarioOptions,
  withScenarioOptions,
} from "../options.ts";
import { lookOf, type PictureOptions, withPictureOptions } from "../picture-options.ts";
import { print } from "../print.ts";
import { printWarnings } from "../print-warnings.ts";
import { progress } from "../progress.ts";
import { type ReportOptions, withReportOptions, writeReport } from "../report-options.ts";
import { pictureFiles, writePictures } from "../run-pictures.ts";
import { scenarioReport } from "../scenario-report.ts";
import { chooseSeed, folderPart } from "../seed.ts";
import { wroteLine } from "../style.ts";

interface PlanCommandOptions extends ScenarioOptions, PictureOptions, ReportOptions {
  readonly within?: number;
  readonly length?: number;
  readonly confidence: number;
  readonly verify?: number;
  readonly budgetTime: number;
  readonly workers?: number;
  readonly ahead?: number;
}

const confidenceOption = (text: string): number => {
  const value = text.trim() === "" ? Number.NaN : Number(text);
  if (!(value > 0 && value < 1)) {
    throw new InvalidArgumentError("must be a probability above 0 and below 1, such as 0.95");
  }
  return value;
};

/** `tickwright plan`: how long must a run last, and what does it give. */
export function planCommand(): Command {
  const command = newCommand("plan")
    .summary("how long a run must last for an accuracy, or what a run gives")
    .description(
      "Computes by theory how long a run must last to know the rate to a given accuracy, for each " +
        "way of measuring; or, with --length, what accuracy a run gives. With --verify it holds the " +
        "theory to simulated runs, and ends with status 1 where they contradict it.",
    );
  withScenarioOptions(command)
    .option(
      "--within <accuracy>",
      'half-width of the interval: 1e-9, 0.5ppm, "2 ms/day"',
      accuracyOption,
    )
    .option("--length <time>", "length of the run instead, e.g. 20000, 6h, 30d", durationOption)
    .option("--confidence <probability>", "of the interval", confidenceOption, 0.95)
    .option("--verify <runs>", "simulate so many runs of each way and compare", integerFrom(10))
    .addOption(
      new Option("--budget-time <time>", "what --verify may take; ways beyond are skipped")
        .argParser(durationOption)
        .default(60, "60 s"),
    )
    .option("--workers <count>", "threads of --verify (default: one a core)", integerFrom(1))
    .option("--ahead <time>", "what the dial will be off by so long after the run", durationOption);
  withReportOptions(command);
  return withPictureOptions(
    command,
    "draw accuracy against run length (plan.svg); goes with --within",
    "folder for the picture (default: out/plan-<scenario>)",
  )
    .addHelpText(
      "after",
      examples(
        "tickwright plan observatory --within 1e-9 --set counter.timebase.uncertainty=0",
        'tickwright plan observatory --within "10 ms/day" --ahead 30d --plot',
        "tickwright plan school-laboratory --length 10min --verify 50",
        "tickwright plan observatory --length 6h --json",
      ),
    )
    .action(async (where: string, options: PlanCommandOptions) => plan(where, options));
}

async function plan(where: string, options: PlanCommandOptions): Promise<void> {
  const { within, length, confidence } = options;
  if ((within === undefined) === (length === undefined)) {
    throw new UsageError("give either --within or --length");
  }
  const look = lookOf({ ...options, plot: options.plot === true || options.report !== undefined });
  if (options.plot && within === undefined) throw new UsageError("--plot goes with --within");
  const loaded = loadScenario(where, options.set ?? []);
  const { scenario, warnings: found, name } = loaded;
  const warnings = [...found, ...noNoise(scenario, budget(scenario).totalRandomRms)];
  if (!options.quiet) printWarnings(warnings);
  const drafts = draftOf(scenario, options);
  const verdicts = await verify(scenario, drafts, options);
  if (verdicts === null) {
    process.stderr.write("Interrupted before the runs were complete: nothing is verified.\n");
    process.exitCode = exitCode.interrupted;
  }
  const rows = drafts.map((row, i): PlanRow => ({ ...row, verdict: verdicts?.[i] ?? null }));
  const question = {
    title: scenario.title,
    within: within ?? null,
    length: length ?? null,
    confidence,
    ahead: options.ahead ?? null,
    input: scenario.counter.input,
  };
  print(
    options.json
      ? jsonText(planToJson(scenario, rows, question, warnings))
      : printPlan(question, rows),
  );
  const node = () =>
    planPicture(scenario, planLengths(scenario, within!, confidence), {
      title: options.title ?? scenario.title,
      ...look,
    });
  const { report } = writeReport(options, () =>
    scenarioReport(
      loaded,
      where,
      () => printPlan(question, rows),
      within === undefined ? [] : [node()],
      [
        `By theory, for each way of measuring, at ${Number((100 * confidence).toPrecision(6))} %; bounds of the time base are counted.`,
        ...(options.verify === undefined
          ? []
          : [`Held to ${options.verify} simulated runs of each way.`]),
      ],
    ),
  );
  if (report !== undefined && !options.json) print(`\n${wroteLine(report)}\n`);
  if (options.plot) {
    const path = options.out ?? join("out", `plan-${folderPart(name)}`);
    const mayReplace = options.out === undefined || options.force === true;
    const [file] = writePictures(path, pictureFiles([{ name: "plan", node: node() }]), mayReplace);
    if (!options.json) print(`\n${wroteLine(file!)}\n`);
  }
  if (verdicts?.some((verdict) => verdict?.agrees === false)) process.exitCode = exitCode.differs;
}

/** Rows but for what simulation says. */
function draftOf(scenario: Scenario, options: PlanCommandOptions): readonly PlanRow[] {
  const { within, length, confidence } = options;
  if (within === undefined) {
    return planAccuracies(scenario, length!).rows.map(({ strategy, prediction }) =>
      rowOf(scenario, strategy, null, prediction, options),
    );
  }
  return planLengths(scenario, within, confidence).rows.map(({ strategy, result }) => {
    const prediction = result.reachable ? predict(scenario, strategy, result.length) : null;
    return rowOf(scenario, strategy, result, prediction, options);
  });
}

function rowOf(
  scenario: Scenario,
  strategy: Strategy,
  length: RunLength | null,
  prediction: Prediction | null,
  { confidence, ahead, length: given }: PlanCommandOptions,
): PlanRow {
  const isKnown = prediction !== null && !Number.isNaN(prediction.standardUncertainty);
  const run = length?.length ?? given!;
  return {
    strategy,
    length,
    prediction,
    halfWidth: isKnown
      ? halfWidth(scenario, strategy, prediction.readings, confidence)
      : Number.NaN,
    ahead:
      ahead === undefined || !isKnown
        ? null
        : dialOfPlan(scenario, strategy, prediction.standardUncertainty, run, ahead, confidence),
    verdict: null,
  };
}

/** Verdicts by row; of none where nobody asked for them; null where interrupted. */
async function verify(
  scenario: Scenario,
  rows: readonly PlanRow[],
  options: PlanCommandOptions,
): Promise<readonly (Verdict | null)[] | null> {
  const { verify: runs } = options;
  if (runs === undefined) return rows.map(() => null);
  const claims = rows.map(
    ({ strategy, prediction }): Claim => ({
      strategy,
      readings: prediction?.readings || Number.NaN,
      predicted: prediction?.standardUncertainty ?? Number.NaN,
      sourceDeviation: prediction?.sourceDeviation ?? Number.NaN,
    }),
  );
  return verifyPlan(scenario, claims, {
    seed: chooseSeed(options.seed, scenario.seed),
    runs,
    workers: options.workers ?? coresAtHand(),
    time: options.budgetTime,
    progress: progress("verifying", options.quiet === true),
  });
}

function planToJson(
  scenario: Scenario,
  rows: readonly PlanRow[],
  question: Parameters<typeof printPlan>[0],
  warnings: readonly unknown[],
) {
  const verified = ({ verdict }: PlanRow): VerifiedRow | null => verdict;
  const { within, length, confidence, ahead } = question;
  return {
    schema_version: 1,
    title: scenario.title,
    ...(within === null ? { length_s: length } : { within }),
    confidence,
    ...(ahead === null ? {} : { ahead_s: ahead }),
    systematic_bound: rows[0] ? systematicBound(rows[0].strategy.systematic) : 0,
    ...(within === null
      ? {
          predictions: rows
            .filter(({ prediction }) => prediction !== null)
            .map((row) =>
              predictionToJson(row.strategy, row.prediction!, row.halfWidth, {
                ahead: row.ahead,
                verified: verified(row),
              }),
            ),
        }
      : {
          strategies: rows.map((row) =>
            strategyToJson(row.strategy, row.length!, row.prediction, {
              ahead: row.ahead,
              verified: verified(row),
            }),
          ),
        }),
    warnings,
  };
}
