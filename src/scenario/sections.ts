import type { z } from "zod";
import type { SenseReport } from "../keys/index.ts";
import {
  clockSchema,
  clockToJson,
  resolveClock,
  senseOfClock,
  stepKeys,
  stepsToJson,
} from "../stages/clock/index.ts";
import {
  counterSchema,
  counterToJson,
  resolveCounter,
  senseOfCounter,
} from "../stages/counter/index.ts";
import { driveSchema, driveToJson, resolveDrive, senseOfDrive } from "../stages/drive/index.ts";
import {
  environmentSchema,
  environmentToJson,
  referenceSchema,
  referenceToJson,
  resolveEnvironment,
  resolveReference,
  senseOfReference,
} from "../stages/oscillator/index.ts";
import {
  receiverSchema,
  receiverToJson,
  resolveReceiver,
  senseOfReceiver,
} from "../stages/receiver/index.ts";
import {
  resolveSynthesizer,
  senseOfSynthesizer,
  setFrequency,
  synthesizerSchema,
  synthesizerToJson,
} from "../stages/synthesizer/index.ts";
import { nominalPeriod } from "./nominal-period.ts";
import type { Scenario } from "./scenario.ts";

// The stages in the order of the signal. All that a scenario asks of a stage is asked here: its keys, what they
// come to, the way back, what makes no sense. A stage that is put into the chain is a line in each of the four.

/** The section of each stage in a scenario file. */
export const stageSchemas = {
  clock: clockSchema,
  environment: environmentSchema.prefault({}),
  reference: referenceSchema,
  synthesizer: synthesizerSchema.optional(),
  drive: driveSchema.optional(),
  receiver: receiverSchema.extend(stepKeys).meta(receiverSchema.meta()!).optional(),
  counter: counterSchema,
};

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
    environment: resolveEnvironment(environment),
    reference: resolveReference(reference, report),
    synthesizer: synthesizer === undefined ? null : resolveSynthesizer(synthesizer, report),
    drive: drive === undefined ? null : resolveDrive(drive),
    receiver: receiver === undefined ? null : resolveReceiver(receiver),
    clock: resolveClock(clock, receiver, report),
    counter: resolveCounter(counter, report),
  };
}

/**
 * The way back.
 *
 * @param stages - parameters of each stage
 * @returns the sections, every default written out
 */
export function stagesToJson(stages: Stages) {
  const { environment, reference, synthesizer, drive, receiver, clock, counter } = stages;
  return {
    clock: clockToJson(clock),
    environment: environmentToJson(environment),
    reference: referenceToJson(reference),
    ...(synthesizer && { synthesizer: synthesizerToJson(synthesizer) }),
    ...(drive && { drive: driveToJson(drive) }),
    ...(receiver && { receiver: { ...receiverToJson(receiver), ...stepsToJson(clock) } }),
    counter: counterToJson(counter),
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
  senseOfReference(reference, environment, length, 1 / seen, report);
  if (synthesizer) senseOfSynthesizer(synthesizer, receiver && clock, length, report);
  if (drive && burstPeriod) senseOfDrive(drive, burstPeriod, report);
  if (receiver && drive && burstPeriod) senseOfReceiver(receiver, drive, burstPeriod, report);
  senseOfClock(clock, burstPeriod, length, report);
  const bounce = counter.input === "clock" ? (clock.bounce?.within ?? 0) : 0;
  senseOfCounter(counter, { period: nominalPeriod(scenario), bounce }, length, report);
}

/** Time from burst to burst as set; s. Null where there are none, or the setting is 0. */
function burstPeriodOf({ synthesizer, drive }: Scenario): number | null {
  if (synthesizer === null || drive === null) return null;
  const { outputHz, settingStepHz } = synthesizer;
  return outputHz < settingStepHz / 2 ? null : 1 / setFrequency(outputHz, settingStepHz);
}
