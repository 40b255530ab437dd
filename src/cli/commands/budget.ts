import { join } from "node:path";
import type { Command } from "commander";
import { type Budget, budget, budgetCurve, delayByPhase, noNoise } from "../../planning/index.ts";
import type { Scenario } from "../../scenario/index.ts";
import { budgetChart, type SvgNode } from "../../view/chart/index.ts";
import { budgetToJson, jsonText } from "../../view/table/index.ts";
import { printBudget } from "../ensemble/print-budget.ts";
import { coresAtHand } from "../ensemble/run-ensemble.ts";
import {
  type SimulatedScatter,
  scatterScenario,
  simulateScatter,
} from "../ensemble/simulate-scatter.ts";
import { exitCode } from "../exit-code.ts";
import { loadScenario } from "../load-scenario.ts";
import { examples, newCommand } from "../new-command.ts";
import { integerFrom, type ScenarioOptions, withScenarioOptions } from "../options.ts";
import {
  type ChartLook,
  lookOf,
  type PictureOptions,
  withPictureOptions,
} from "../picture-options.ts";
import { print } from "../print.ts";
import { printWarnings } from "../print-warnings.ts";
import { type ReportOptions, withReportOptions, writeReport } from "../report-options.ts";
import { pictureFiles, writePictures } from "../run-pictures.ts";
import { scenarioReport } from "../scenario-report.ts";
import { chooseSeed, folderPart } from "../seed.ts";
import { wroteLine } from "../style.ts";

interface BudgetCommandOptions extends ScenarioOptions, PictureOptions, ReportOptions {
  readonly gate?: string;
  readonly simulation: boolean;
  readonly workers?: number;
}

/** `tickwright budget`: what each stage adds to one reading. */
export function budgetCommand(): Command {
  const command = newCommand("budget")
    .summary("what each stage adds to one reading")
    .description(
      "Lists by theory what each stage of the chain adds to one reading of the counter, " +
        "the largest first, beside what simulated readings of the same gate scatter by.",
    );
  withScenarioOptions(command)
    .option("--gate <seconds>", "gate of the counter in s, or single")
    .option("--no-simulation", "theory alone")
    .option("--workers <count>", "threads (default: one a core)", integerFrom(1));
  withReportOptions(command);
  return withPictureOptions(
    command,
    "draw each contribution against the gate, too (budget.svg)",
    "folder for the picture (default: out/<scenario>-budget)",
  )
    .addHelpText(
      "after",
      examples(
        "tickwright budget observatory",
        "tickwright budget observatory --gate single --no-simulation",
        "tickwright budget harbour-tide-gauge --plot --json",
      ),
    )
    .action(async (where: string, options: BudgetCommandOptions) => showBudget(where, options));
}

async function showBudget(where: string, options: BudgetCommandOptions): Promise<void> {
  const look = lookOf({ ...options, plot: options.plot === true || options.report !== undefined });
  const loaded = loadScenario(where, options.set ?? [], {
    "--gate": ["counter.gate_s", options.gate],
  });
  const { scenario } = loaded;
  const delay = delayByPhase(scenario);
  const { gate, deadTime } = scenario.counter;
  const first = budget(scenario, gate, delay);
  const warnings = [...loaded.warnings, ...noNoise(scenario, first.totalRandomRms)];
  if (!options.quiet) printWarnings(warnings);
  const spacing = first.gate + deadTime;
  const simulated = options.simulation ? scatterScenario(scenario, spacing) : scenario;
  const found = budget(simulated, gate, delay);
  const scatter = options.simulation
    ? await simulateScatter(
        simulated,
        found,
        chooseSeed(options.seed, scenario.seed),
        options.workers ?? coresAtHand(),
      )
    : null;
  if (options.simulation && scatter === null) process.exitCode = exitCode.interrupted;
  const node = () =>
    pictureOf(scenario, found, scatter, { title: options.title ?? scenario.title, ...look });
  const files: Record<string, string> = {};
  if (options.plot) {
    const path = options.out ?? join("out", `${folderPart(loaded.name)}-budget`);
    const mayReplace = options.out === undefined || options.force === true;
    const picture = pictureFiles([{ name: "budget", node: node() }]);
    files.budget = writePictures(path, picture, mayReplace)[0]!;
  }
  const text = () => printBudget(scenario.title, found, scatter);
  const report = writeReport(options, () =>
    scenarioReport(
      loaded,
      where,
      text,
      [node()],
      [
        "By theory, stage by stage: what each adds to one reading.",
        ...(scatter === null
          ? []
          : [`Beside it ${scatter.readings} simulated readings in ${scatter.runs} runs.`]),
      ],
    ),
  );
  Object.assign(files, report);
  if (options.json) {
    const made = Object.keys(files).length === 0 ? {} : { files };
    print(jsonText({ ...budgetToJson(found, scatter), ...made, warnings }));
    return;
  }
  print(text());
  for (const file of Object.values(files)) print(`\n${wroteLine(file)}\n`);
}

/** Each contribution against the gate. */
function pictureOf(
  scenario: Scenario,
  found: Budget,
  scatter: SimulatedScatter | null,
  options: ChartLook & { readonly title: string },
): SvgNode {
  const { gates, rows, totalRandomRms } = budgetCurve(scenario);
  const simulated =
    scatter === null || !(scatter.rms > 0)
      ? {}
      : {
          simulated: {
            gate: Float64Array.of(found.gate),
            fraction: Float64Array.of(scatter.rms),
            low: Float64Array.of(scatter.interval95[0]),
            high: Float64Array.of(scatter.interval95[1]),
          },
        };
  return budgetChart(
    {
      gate: gates,
      stages: rows.map(({ stage, cause, fractions }) => ({
        name: `${stage}: ${cause}`,
        fraction: fractions,
      })),
      total: totalRandomRms,
      ...simulated,
    },
    { ...options, idPrefix: "budget" },
  );
}
