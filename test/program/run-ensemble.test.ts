import { describe, expect, it } from "vitest";
import { budget } from "../../src/planning/index.ts";
import { parseScenario } from "../../src/scenario/index.ts";

// The built modules: workers start from a built file.
const built = new URL("../../dist/cli/ensemble/", import.meta.url);
const { runEnsemble } = await import(new URL("run-ensemble.js", built).href);
const { scatterJobs } = await import(new URL("simulate-scatter.js", built).href);

const text = `
title: Seconds
length_s: 20
clock: { tick_hz: 1 }
reference: { nominal_hz: 10e6, noise: { white_pm_rms_s: 1e-9 } }
counter: { input: clock, technique: reciprocal, gate_s: 1, timebase: reference }
`;

describe("runEnsemble", () => {
  it("is given no result after it was told to end, though workers have some at hand", async () => {
    const { scenario } = parseScenario(text, "seconds", []);
    let isEnded = false;
    let late = 0;
    let taken = 0;
    const isDone = await runEnsemble(scatterJobs(scenario, budget(scenario), "a"), 2, () => {
      if (isEnded) late++;
      isEnded = ++taken >= 8;
      // Meanwhile the workers finish what they have at hand.
      if (isEnded) Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 500);
      return !isEnded;
    });
    expect([isDone, taken, late]).toEqual([false, 8, 0]);
  });
});
