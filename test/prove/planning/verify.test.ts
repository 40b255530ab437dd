import { describe, expect, it } from "vitest";
import type { Method } from "../../../src/planning/index.ts";
import { demoCases, noiseCases, type VerifyCase } from "./verify-cases.ts";
import { simulatedDeviations, verifyTable } from "./verify-harness.ts";

/**
 * Runs of each way of measuring: the rms of Gaussian deviations is known to 2.2 % by a thousand, and to 5 % by the 200
 * that a chain with a receiver is given, which takes ten times as long; `verify.bench.ts` gives it a thousand too.
 */
const runsOf = ({ scenario }: VerifyCase, method: Method) =>
  scenario.receiver !== null && ofClock.has(method) ? 200 : 1000;
const ofClock: ReadonlySet<Method> = new Set([
  "single_periods",
  "gates_with_dead_time",
  "back_to_back_mean",
  "back_to_back_line",
  "stamped_ticks_line",
  "longest_gate",
]);
/** Probability inside 3.5 standard deviations: in one of twenty sets of seeds one of the 110 rows would miss. */
const confidence = 0.99953;

describe.each([
  ["of the demos", verifyTable(demoCases)],
  ["of each noise type alone", verifyTable(noiseCases)],
])("the predicted rms of estimate less rate over the run, %s,", (_, rows) => {
  // Independent computation: the event-driven simulation of the chain knows nothing of spectra and weights.
  it.each(rows)("agrees with simulated runs: %s, %s", (_name, method, one) => {
    const { prediction, deviations } = simulatedDeviations(one, method, runsOf(one, method));
    const { standardUncertainty, sourceDeviation } = prediction;
    // What is below a thousandth of the source's own deviation does not matter, but must be so in both.
    if (standardUncertainty <= 1e-3 * sourceDeviation) {
      expect(deviations.rms).toBeLessThanOrEqual(1e-3 * sourceDeviation);
      return;
    }
    const [low, high] = deviations.interval(confidence);
    expect(standardUncertainty / deviations.rms).toBeGreaterThan(low / deviations.rms);
    expect(standardUncertainty / deviations.rms).toBeLessThan(high / deviations.rms);
  });
});
