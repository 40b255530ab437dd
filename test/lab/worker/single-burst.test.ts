import { describe, expect, it } from "vitest";
import { Bench, paceOf, singleBurst } from "../../../src/lab/index.ts";
import { demo } from "../../page/lesson-file.ts";

const pace = paceOf(
  () => false,
  () => {},
);

describe("singleBurst", () => {
  // Two computations of one and the same burst: the engine's crossing, and the picture's voltage at that time.
  // Without receiver noise they must meet the threshold together; 1e-6 V is some ns of delay.
  it("draws the burst that the engine met: amplitude, phase and charge", async () => {
    const scenario = demo("observatory");
    const receiver = { ...scenario.receiver!, noiseV: 0 };
    const bench = new Bench({ ...scenario, receiver });
    for (const burst of [1, 2, 3, 50, 200]) {
      const { time, voltage, delays, threshold } = await singleBurst(
        bench,
        { seed: "bursts", burst },
        pace,
      );
      const at = time.indexOf(delays[burst - 1]!);
      expect(at).toBeGreaterThan(0);
      expect(voltage[at]).toBeCloseTo(threshold, 6);
      expect(Math.max(...voltage.subarray(0, at))).toBeLessThan(threshold);
    }
  });

  it("gives the delays of the bursts whichever is looked at, with noise drawn to fit", async () => {
    const bench = new Bench(demo("observatory"));
    const first = await singleBurst(bench, { seed: "bursts", burst: 1 }, pace);
    const later = await singleBurst(bench, { seed: "bursts", burst: 9 }, pace);
    expect(later.delays).toEqual(first.delays);
    expect(later.delays.length).toBe(200);
    expect(later.hasNoise).toBe(true);
    const at = later.time.indexOf(later.delays[8]!);
    expect(later.voltage[at]).toBeCloseTo(later.threshold, 9);
  });
});
