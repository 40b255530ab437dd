import type { NoiseLevels } from "../../noise/index.ts";
import type { Scenario } from "../../scenario/index.ts";
import type { NoisyStage } from "../protocol.ts";

/**
 * Stages of a scenario that make noise in its readings, in the order of the chain.
 *
 * @param scenario - the scenario
 * @returns stages; those that the counter does not look through are left out
 */
export function noisyStages(scenario: Scenario): readonly NoisyStage[] {
  const { counter, drive, receiver, synthesizer } = scenario;
  const isDriven = counter.input === "clock" && drive !== null && receiver !== null;
  const isSynthesized = synthesizer !== null && (isDriven || counter.input === "synthesizer");
  return [
    "reference",
    ...(isSynthesized ? (["synthesizer"] as const) : []),
    ...(isDriven ? (["drive", "receiver"] as const) : []),
    "counter",
    ...(counter.timebase === "reference" ? [] : (["time base"] as const)),
  ];
}

const silent = (noise: NoiseLevels): NoiseLevels => ({
  ...noise,
  whitePmRms: 0,
  h1: 0,
  h0: 0,
  hMinus1: 0,
  hMinus2: 0,
});

/**
 * A scenario with the noise of some stages switched off.
 *
 * The drive without noise has a steady amplitude and begins every burst at the same phase of the tone.
 *
 * @param scenario - the scenario
 * @param off - the stages
 */
export function silenceStages(scenario: Scenario, off: readonly NoisyStage[]): Scenario {
  return off.reduce(silenceOne, scenario);
}

function silenceOne(scenario: Scenario, stage: NoisyStage): Scenario {
  const { reference, synthesizer, drive, receiver, counter } = scenario;
  switch (stage) {
    case "reference":
      return { ...scenario, reference: { ...reference, noise: silent(reference.noise) } };
    case "synthesizer":
      return {
        ...scenario,
        synthesizer: synthesizer && {
          ...synthesizer,
          noise: silent(synthesizer.noise),
          phaseDetectorWhite: 0,
          spurs: [],
        },
      };
    case "drive":
      return {
        ...scenario,
        drive: drive && { ...drive, amplitudeNoise: 0, carrierLock: "locked" },
      };
    case "receiver":
      return { ...scenario, receiver: receiver && { ...receiver, noiseV: 0 } };
    case "counter":
      return { ...scenario, counter: { ...counter, triggerNoise: 0, resolution: 0 } };
    case "time base": {
      const { timebase } = counter;
      if (timebase === "reference") return scenario;
      const quiet = { ...timebase, noise: silent(timebase.noise) };
      return { ...scenario, counter: { ...counter, timebase: quiet } };
    }
  }
}
