import { nominalPeriod } from "../../chain/index.ts";
import type { Scenario } from "../../scenario/index.ts";

/**
 * A scenario as the lesson looks at it: its noise as it is, but nothing going wrong, and a counter that times
 * whole periods.
 *
 * Left out are disturbances, dropped bursts, extra steps, contact bounce, and edges missed or counted twice:
 * they are shown where they are the subject.
 *
 * @param scenario - the scenario of the page
 * @returns the same with a reciprocal counter of single periods, back to back
 */
export function lessonScenario(scenario: Scenario): Scenario {
  const { drive, receiver } = scenario;
  return {
    ...scenario,
    recording: null,
    drive: drive && { ...drive, dropProbability: 0 },
    receiver: receiver && { ...receiver, extraStepRateHz: 0 },
    clock: { ...scenario.clock, bounce: null },
    counter: {
      ...scenario.counter,
      technique: "reciprocal",
      gate: "single",
      deadTime: 0,
      holdoff: 0,
      missedEdgeProbability: 0,
      extraEdgeProbability: 0,
      displayDigits: null,
    },
    disturbances: [],
  };
}

/** Shortest period that a gate is counted in; s. */
const shortestUnit = 1e-3;

/**
 * What gates are counted in: periods, or milliseconds where periods are shorter.
 *
 * @param scenario - the scenario
 * @returns length of the unit; s
 */
export function gateUnit(scenario: Scenario): number {
  return Math.max(nominalPeriod(scenario), shortestUnit);
}

/**
 * A scenario with a gate of so many units.
 *
 * The gate asks for half a period less, so that it holds just as many periods whatever the jitter.
 *
 * @param scenario - a scenario of the lesson
 * @param units - length of the gate; integer >= 1, in `gateUnit`
 * @param deadTime - between readings; s, >= 0
 */
export function withGate(scenario: Scenario, units: number, deadTime = 0): Scenario {
  const period = nominalPeriod(scenario);
  const length = units * gateUnit(scenario);
  const gate = length < 1.5 * period ? "single" : length - 0.5 * period;
  return { ...scenario, counter: { ...scenario.counter, gate, deadTime } };
}
