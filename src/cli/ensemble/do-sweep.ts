import { settleRun } from "../../chain/index.ts";
import { csvRows } from "../../view/table/index.ts";
import type { Progress } from "../progress.ts";
import { runEnsemble } from "./run-ensemble.ts";
import type { SweepJournal } from "./sweep-journal.ts";
import { memberOf, rowsOf, runOfRow, type SweepPlan } from "./sweep-plan.ts";
import type { SweepJob } from "./sweep-run.ts";
import type { SweepScenarios } from "./sweep-scenarios.ts";

/**
 * Does the runs of a sweep that are not in its journal yet, and adds them there.
 *
 * @returns true when all are there, false when interrupted
 */
export async function doSweep(
  plan: SweepPlan,
  scenarios: SweepScenarios,
  journal: SweepJournal,
  workers: number,
  progress: Progress,
): Promise<boolean> {
  const rows = rowsOf(plan);
  const missing = rows - journal.count;
  if (missing === 0) return true;
  const isComplete = await runEnsemble(
    jobsOf(plan, scenarios, journal),
    Math.min(workers, missing),
    (row, cells) => {
      const { choice, seed } = memberOf(plan, runOfRow(plan.shard, row));
      const values = plan.varied.map((varied, i) => varied.cells[choice[i]!]!);
      journal.add(row, csvRows([[...values, seed, ...cells]]).trimEnd());
      progress.show(journal.count / rows);
      return true;
    },
  );
  progress.clear();
  return isComplete;
}

function* jobsOf(
  plan: SweepPlan,
  scenarios: SweepScenarios,
  journal: SweepJournal,
): Generator<readonly [number, SweepJob], void, undefined> {
  const { length, readings, recording } = plan;
  const rows = rowsOf(plan);
  for (let row = 0; row < rows; row++) {
    if (journal.has(row)) continue;
    const { combination, seed } = memberOf(plan, runOfRow(plan.shard, row));
    const scenario = scenarios.of(combination);
    const { options } = settleRun(scenario, {
      seed,
      length,
      readings,
      recording,
      wantsTicks: false,
      wantsBursts: false,
    });
    yield [row, { kind: "sweep", scenario, options }];
  }
}
