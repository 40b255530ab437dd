import type { Scenario } from "../scenario/index.ts";
import { toneHz } from "../stages/drive/index.ts";
import { explainedRate } from "../stages/oscillator/index.ts";
import { beatNoise, type DelayByPhase } from "../stages/receiver/index.ts";
import { loopNoise, settingOf } from "../stages/synthesizer/index.ts";
import { type NoiseTerm, ownVariance, phaseNoise } from "../theory/index.ts";

/** Where a counter may look at the chain. */
export type Input = Scenario["counter"]["input"];

/** Edges that a counter looks at. */
export interface InputEdges {
  /** Their period, as set; s of the reference's own scale. */
  readonly period: number;
  /** Noise of their time errors about the truth: the accumulated time error of the reference. */
  readonly noise: readonly NoiseTerm[];
}

/**
 * Period of the edges that a counter may look at.
 *
 * @param scenario - the scenario
 * @param input - where the counter looks
 * @returns s of the reference's own scale, as the synthesizer is set
 * @throws RangeError if the input is a synthesizer that the scenario does not have
 */
export function inputPeriod(scenario: Scenario, input: Input): number {
  const { reference, synthesizer, drive, clock } = scenario;
  if (input === "reference") return 1 / reference.nominalHz;
  // Without a drive the clock divides the reference.
  if (input === "clock" && drive === null) return 1 / clock.tickHz;
  if (synthesizer === null) {
    throw new RangeError("inputPeriod: input must be clock or reference, got synthesizer");
  }
  const { setHz } = settingOf(synthesizer);
  return input === "synthesizer" ? 1 / setHz : clock.stepsPerTick / setHz;
}

/**
 * The time errors of the edges at one point of the chain, cause by cause.
 *
 * Truth is the accumulated frequency noise of the reference: what phase noise, loop, tone and detector add to
 * it is measurement noise, and so is what the loop does not follow. A counter that runs on the reference
 * shares the phase noise of the reference's own edges.
 *
 * @param scenario - the scenario
 * @param input - where the counter looks
 * @param delay - detection delay by phase of the tone; null where there is no receiver
 * @returns period and noise of the edges
 * @throws RangeError as `inputPeriod`, or if delay is missing where the clock has a receiver
 */
export function chainNoise(
  scenario: Scenario,
  input: Input,
  delay: DelayByPhase | null,
): InputEdges {
  const { reference, synthesizer, drive, receiver, counter } = scenario;
  const period = inputPeriod(scenario, input);
  const isDivided = input === "clock" && drive === null;
  if (input === "reference" || isDivided || synthesizer === null) {
    const isShared = counter.timebase === "reference";
    return { period, noise: isShared ? [] : phaseNoise("reference", reference.noise) };
  }
  const loop = loopNoise(synthesizer, reference.noise);
  if (input === "synthesizer" || drive === null || receiver === null) {
    return { period, noise: loop };
  }
  if (delay === null) {
    throw new RangeError("chainNoise: delay must be given where the clock has a receiver");
  }
  if (drive.carrierLock === "locked") {
    const first = { mean: [delay.mean[0]!], variance: [delay.variance[0]!] };
    return { period, noise: [...loop, ...beatNoise(first, 0, period, 0)] };
  }
  const carrier = toneHz(drive);
  // The tone keeps true time, the edges that of the reference.
  const truePeriod = period / (1 + explainedRate(scenario));
  const jitterTurns = carrier * Math.sqrt(loop.reduce((sum, term) => sum + ownVariance(term), 0));
  return {
    period,
    noise: [...loop, ...beatNoise(delay, carrier * truePeriod, period, jitterTurns)],
  };
}
