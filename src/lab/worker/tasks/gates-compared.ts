import { gateUnit, withGate } from "../../lesson/lesson-scenario.ts";
import type { GateSpread } from "../../protocol.ts";
import { recordRun } from "../run-lesson.ts";
import { spreadOf } from "../spread-of.ts";
import type { Task } from "../task.ts";
import { budgetOf, scatterOf } from "../theory.ts";

/** Gates compared; in units of the gate. */
export const comparedGates = [1, 2, 5, 10, 20, 50, 100];

/** Length of the run they share; in units of the gate. */
const units = 2000;

/** The very same ticks seen through gates of different lengths. */
export const gatesCompared: Task<"gates"> = async (bench, { seed }, pace) => {
  const { lesson } = bench;
  const delay = bench.delay(lesson);
  const length = (units + 2) * gateUnit(lesson);
  const gates: GateSpread[] = [];
  for (const one of comparedGates) {
    const scenario = withGate(lesson, one);
    const spread = spreadOf(scenario, await recordRun(scenario, seed, { length }, pace));
    const theory = scatterOf(budgetOf(scenario, delay), spread.readings);
    gates.push({ units: one, gate: one * gateUnit(lesson), spread, theory });
  }
  return { gates };
};
