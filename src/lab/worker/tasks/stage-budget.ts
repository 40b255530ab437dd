import { budgetCurve } from "../../../planning/index.ts";
import { withGate } from "../../lesson/lesson-scenario.ts";
import { noisyStages, silenceStages } from "../../lesson/silence-stages.ts";
import type { NoisyStage } from "../../protocol.ts";
import { recordRun } from "../run-lesson.ts";
import { spreadOf } from "../spread-of.ts";
import type { Task } from "../task.ts";
import { budgetOf, scatterOf } from "../theory.ts";

/** Readings simulated beside the theory. */
const readings = 200;

/**
 * What each stage adds to the scatter, with some of them silent, beside what a run shows.
 *
 * A stage's share is what goes when it alone is silenced: so what the drive's amplitude does in the receiver is the
 * drive's.
 */
export const stageBudget: Task<"stages"> = async (bench, { seed, off, units }, pace) => {
  const scenario = withGate(silenceStages(bench.lesson, off), units);
  const simulated = spreadOf(scenario, await recordRun(scenario, seed, { readings }, pace));
  const all = withGate(bench.lesson, units);
  const scatter = (silent: readonly NoisyStage[]) => {
    const quiet = silenceStages(all, silent);
    const found = budgetOf(quiet, bench.delay(quiet));
    return { at: scatterOf(found, readings), gate: found.gate };
  };
  const course = (silent: readonly NoisyStage[]) => {
    const quiet = silenceStages(all, silent);
    const { gates, rows } = budgetCurve(quiet, bench.delay(quiet));
    const wanted = rows.filter(({ kind }) => kind === "random" || kind === "accumulating");
    return {
      gates,
      rms: gates.map((_, i) => Math.hypot(...wanted.map(({ fractions }) => fractions[i]!))),
    };
  };
  const stages = noisyStages(all).filter((stage) => !off.includes(stage));
  const { at: expected, gate } = scatter(off);
  const { gates, rms: total } = course(off);
  const shares: number[] = [];
  const courses: { stage: NoisyStage; fraction: Float64Array }[] = [];
  const gone = (whole: number, rest: number) => Math.sqrt(Math.max(0, whole ** 2 - rest ** 2));
  for (const stage of stages) {
    await pace.breathe(shares.length / stages.length);
    const rest = course([...off, stage]).rms;
    shares.push(gone(expected, scatter([...off, stage]).at));
    courses.push({ stage, fraction: total.map((value, i) => gone(value, rest[i]!)) });
  }
  return { gates, courses, total, shares, expected, simulated, gate };
};
