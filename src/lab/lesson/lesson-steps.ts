import type { LessonContext, Step } from "./step.ts";
import { driveLostStep } from "./steps/drive-lost.ts";
import { howLongStep } from "./steps/how-long.ts";
import { insideABurstStep } from "./steps/inside-a-burst.ts";
import { longerGateStep } from "./steps/longer-gate.ts";
import { manyGatesStep } from "./steps/many-gates.ts";
import { onePeriodStep } from "./steps/one-period.ts";
import { stagesStep } from "./steps/stages.ts";

/**
 * The lesson: five steps, and two looks into the clock where it is driven by bursts.
 *
 * @param context - what the lesson is about
 * @returns steps in their order
 */
export function lessonSteps(context: LessonContext): readonly Step[] {
  const { drive, receiver } = context.scenario;
  const isDriven = drive !== null && receiver !== null;
  const steps = [
    onePeriodStep(context),
    stagesStep(context),
    longerGateStep(context),
    manyGatesStep(context),
    howLongStep(context),
    ...(isDriven ? [insideABurstStep(), driveLostStep(context)] : []),
  ];
  return steps as unknown as readonly Step[];
}
