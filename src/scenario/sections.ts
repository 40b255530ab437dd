import type { z } from "zod";
import type { SenseReport } from "../keys/index.ts";
import { clockKeys } from "../stages/clock/index.ts";
import { counterKeys } from "../stages/counter/index.ts";
import { driveKeys } from "../stages/drive/index.ts";
import { environmentKeys, referenceKeys } from "../stages/oscillator/index.ts";
import { receiverKeys } from "../stages/receiver/index.ts";
import { setFrequency, synthesizerKeys } from "../stages/synthesizer/index.ts";
import { nominalPeriod } from "./nominal-period.ts";
import type { Scenario } from "./scenario.ts";

// The stages in the order of the signal. All that a scenario asks of a stage is asked here: its keys, what they
// come to, what makes no sense. A stage that is put into the chain is a line in each part of this file.

/** The section of each stage in a scenario file. */
export const stageSchemas = {
  clock: clockKeys.schema,
  environment: environmentKeys.schema.prefault({}),
  reference: referenceKeys.schema,
  synthesizer: synthesizerKeys.schema.optional(),
  drive: driveKeys.schema.optional(),
  receiver: receiverKeys.schema
    .extend(clockKeys.inReceiver)
    .meta(receiverKeys.schema.meta()!)
    .optional(),
  counter: counterKeys.schema,
};

/** Which stages cannot stand without which others, and why. */
export const stageNeeds = [
  ["drive", "receiver", "without one nobody hears the bursts"],
  ["receiver", "drive", "without one it hears no bursts"],
  ["drive", "synthesizer", "its edges open the bursts"],
] as const;

/** The sections of the stages as written, type-checked, plain defaults filled in. */
export type StageDocuments = z.output<z.ZodObject<typeof stageSchemas>>;

/** The parameters of each stage; null where the file has no such section. */
export type Stages = Readonly<ReturnType<typeof resolveStages>>;

/**
 * Fills in what the sections of the stages leave open.
 *
 * @param document - the sections
 * @param report - where it is noted that keys do not fix something
 * @returns the parameters of each stage, SI units
 */
export function resolveStages(document: StageDocuments, report: SenseReport) {
  const { environment, reference, synthesizer, drive, receiver, clock, counter } = document;
  return {
    environment: environmentKeys.resolve(environment),
    reference: referenceKeys.resolve(reference, report),
    synthesizer: synthesizer ? synthesizerKeys.resolve(synthesizer, report) : null,
    drive: drive ? driveKeys.resolve(drive, report) : null,
    receiver: receiver ? receiverKeys.resolve(receiver) : null,
    clock: clockKeys.resolve(clock, receiver, report),
    counter: counterKeys.resolve(counter, report),
  };
}

/**
 * Checks the stages for sense, each told in numbers what it has to know of the others.
 *
 * @param scenario - a resolved scenario
 * @param report - where findings go
 */
export function senseOfStages(scenario: Scenario, report: SenseReport): void {
  const { environment, reference, synthesizer, drive, receiver, clock, counter, length } = scenario;
  const burstPeriod = burstPeriodOf(scenario);
  const isOfReference = counter.input === "reference";
  const seen = isOfReference ? reference.nominalHz : (synthesizer?.outputHz ?? clock.tickHz);
  referenceKeys.sense(reference, environment, length, 1 / seen, report);
  if (synthesizer) synthesizerKeys.sense(synthesizer, receiver && clock, length, report);
  if (drive && burstPeriod) driveKeys.sense(drive, burstPeriod, report);
  if (receiver && drive && burstPeriod) receiverKeys.sense(receiver, drive, burstPeriod, report);
  clockKeys.sense(clock, burstPeriod, length, report);
  const bounce = counter.input === "clock" ? (clock.bounce?.within ?? 0) : 0;
  counterKeys.sense(counter, { period: nominalPeriod(scenario), bounce }, length, report);
}

/** Time from burst to burst as set; s. Null where there are none, or the setting is 0. */
function burstPeriodOf({ synthesizer, drive }: Scenario): number | null {
  if (synthesizer === null || drive === null) return null;
  const { outputHz, settingStepHz } = synthesizer;
  return outputHz < settingStepHz / 2 ? null : 1 / setFrequency(outputHz, settingStepHz);
}
