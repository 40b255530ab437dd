import { describe, expect, it } from "vitest";
import { scatterJobs, scatterOf, scatterRun, scatterScenario } from "../../../src/cli/index.ts";
import { budget } from "../../../src/planning/index.ts";
import { demo, demoNames } from "./verify-cases.ts";

describe("the random sum of a budget", () => {
  // Independent computation: the event-driven simulation of the chain. With 2000 effective readings the rms is
  // known to 1.6 %, so that 5 % are three standard deviations.
  it.each([
    ...demoNames.map((name) => [name, []] as const),
    // Gates of whole ticks: a reading holds one more or less, as its edges fall.
    ["school-laboratory", ["counter.gate_s=1"]],
    ["harbour-tide-gauge", ["counter.gate_s=2"]],
    ["harbour-tide-gauge", ["counter.gate_s=10"]],
  ] as const)("is what simulated readings scatter by, within a twentieth: %s %j", (name, sets) => {
    const full = demo(name, sets);
    const { gate } = budget(full);
    const scenario = scatterScenario(full, gate + full.counter.deadTime, 400);
    const found = budget(scenario);
    const squares: number[] = [];
    const counts: number[] = [];
    for (const [run, job] of scatterJobs(scenario, found, "budget")) {
      const { squares: sum, count } = scatterRun(job);
      squares.push(sum);
      counts.push(count);
      if (run === 15) break;
    }
    const { rms, effectiveReadings } = scatterOf(squares, counts);
    expect(effectiveReadings).toBeGreaterThan(2000);
    expect(found.totalRandomRms / rms).toBeGreaterThan(0.95);
    expect(found.totalRandomRms / rms).toBeLessThan(1.05);
  });
});

describe("the worth of simulated readings", () => {
  it("is never more than their number, however well runs agree by chance", () => {
    // Var(s²) of n independent Gaussian readings is 2σ⁴/n, and correlation adds to it: Σρ² >= 1.
    expect(scatterOf([100, 100.1, 99.9], [100, 100, 100]).effectiveReadings).toBe(300);
    expect(scatterOf([100, 150, 50], [100, 100, 100]).effectiveReadings).toBeLessThan(300);
  });
});
