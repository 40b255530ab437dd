import type { LessonContext, Step } from "./step.ts";
import { averagingStep } from "./steps/averaging.ts";
import { chainStep } from "./steps/chain.ts";
import { driveLostStep } from "./steps/drive-lost.ts";
import { gatesStep } from "./steps/gates.ts";
import { howLongStep } from "./steps/how-long.ts";
import { hundredRunsStep } from "./steps/hundred-runs.ts";
import { insideABurstStep } from "./steps/inside-a-burst.ts";
import { longerGateStep } from "./steps/longer-gate.ts";
import { onePeriodStep } from "./steps/one-period.ts";
import { stagesStep } from "./steps/stages.ts";

/** Steps that are numbered; those after them stand beside. */
export const numberedSteps = 8;

/**
 * The lesson: eight steps, and two looks into the clock where it is driven by bursts.
 *
 * @param context - what the lesson is about
 * @returns steps in their order
 */
export function lessonSteps(context: LessonContext): readonly Step[] {
  const { drive, receiver } = context.scenario;
  const isDriven = drive !== null && receiver !== null;
  const steps = [
    chainStep(context),
    onePeriodStep(context),
    stagesStep(context),
    gatesStep(context),
    longerGateStep(context),
    hundredRunsStep(context),
    averagingStep(context),
    howLongStep(context),
    ...(isDriven ? [insideABurstStep(), driveLostStep(context)] : []),
  ];
  return steps as unknown as readonly Step[];
}
