import { nominalPeriod } from "../../chain/index.ts";
import type { Scenario } from "../../scenario/index.ts";

/**
 * A scenario as the lesson looks at it: its noise, temperature and setting as they are, but nothing going wrong, and
 * a counter that times whole periods.
 *
 * @param scenario - the scenario of the page
 * @returns the same with a reciprocal counter of single periods, back to back, without what `leftOut` names
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

/**
 * What of a scenario the lesson leaves out, in words.
 *
 * @param scenario - as written
 * @returns such as `3 disturbances`; empty where it is shown whole
 */
export function leftOut({
  drive,
  receiver,
  clock,
  counter,
  disturbances,
}: Scenario): readonly string[] {
  const count = disturbances.length;
  const parts: readonly (readonly [boolean, string])[] = [
    [count > 0, count === 1 ? "its disturbance" : `its ${count} disturbances`],
    [(drive?.dropProbability ?? 0) > 0, "bursts that drop out"],
    [(receiver?.extraStepRateHz ?? 0) > 0, "extra steps of the receiver"],
    [clock.bounce !== null, "contact bounce"],
    [
      counter.missedEdgeProbability > 0 || counter.extraEdgeProbability > 0,
      "edges that the counter misses or counts twice",
    ],
    [
      counter.technique !== "reciprocal",
      "the way its counter counts, for one that times whole periods",
    ],
  ];
  return parts.filter(([isThere]) => isThere).map(([, words]) => words);
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
