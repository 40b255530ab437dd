import type { TaskName } from "../../protocol.ts";
import type { Task } from "../task.ts";
import { averaging } from "./averaging.ts";
import { classRuns, classTruth } from "./class-runs.ts";
import { download } from "./download.ts";
import { driveLoss } from "./drive-loss.ts";
import { gatesCompared } from "./gates-compared.ts";
import { hundredRuns } from "./hundred-runs.ts";
import { motion } from "./motion.ts";
import { runLengths } from "./run-lengths.ts";
import { singleBurst } from "./single-burst.ts";
import { singlePeriods } from "./single-periods.ts";
import { stageBudget } from "./stage-budget.ts";
import { ticks } from "./ticks.ts";
import { trialRun } from "./trial-run.ts";

/** Who answers which question. */
export const tasks: { readonly [T in TaskName]: Task<T> } = {
  motion,
  ticks,
  periods: singlePeriods,
  stages: stageBudget,
  gates: gatesCompared,
  hundred: hundredRuns,
  averaging,
  plan: runLengths,
  trial: trialRun,
  bursts: singleBurst,
  loss: driveLoss,
  class: classRuns,
  truth: classTruth,
  download,
};
