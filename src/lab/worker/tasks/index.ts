import type { TaskName } from "../../protocol.ts";
import type { Task } from "../task.ts";
import { download } from "./download.ts";
import { driveLoss } from "./drive-loss.ts";
import { gatesCompared } from "./gates-compared.ts";
import { manyGates } from "./many-gates.ts";
import { runLengths } from "./run-lengths.ts";
import { singleBurst } from "./single-burst.ts";
import { singlePeriods } from "./single-periods.ts";
import { stageBudget } from "./stage-budget.ts";
import { trialRun } from "./trial-run.ts";

/** Who answers which question. */
export const tasks: { readonly [T in TaskName]: Task<T> } = {
  periods: singlePeriods,
  stages: stageBudget,
  gates: gatesCompared,
  many: manyGates,
  plan: runLengths,
  trial: trialRun,
  bursts: singleBurst,
  loss: driveLoss,
  download,
};
