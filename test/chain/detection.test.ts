import { describe, expect, it } from "vitest";
import { outcome } from "../../src/chain/index.ts";
import { detectionDelay } from "../../src/planning/index.ts";
import { demo, runChain } from "./run-chain.ts";

const cases: readonly [string, readonly string[]][] = [
  ["observatory", ["length_s=2400"]],
  // A tone whose phase sweeps: at 1210 Hz every burst of this one would begin alike.
  ["station-dial", ["length_s=2400", "disturbances=[]", "drive.carrier_hz=1211.3"]],
  ["harbour-tide-gauge", ["length_s=9000"]],
];

// First-passage density by integral equation (Buonocore, Nobile and Ricciardi 1987) against bursts drawn one by one.
describe("the delay of bursts in the chain is that of theory", () => {
  it.each(cases)(
    "%s",
    (name, sets) => {
      const scenario = demo(name, sets);
      const { bursts } = runChain(scenario, { recording: "bursts", takes: ["bursts"] });
      expect(bursts.length).toBeGreaterThan(8900);
      expect(bursts.every((burst) => burst.outcome === outcome.step)).toBe(true);
      const delays = bursts.map((burst) => burst.delay);
      const n = delays.length;
      const mean = delays.reduce((a, b) => a + b, 0) / n;
      const spread = Math.sqrt(delays.reduce((sum, d) => sum + (d - mean) ** 2, 0) / (n - 1));
      const theory = detectionDelay(scenario)!;
      // Four standard deviations of the estimates, and what the theory says it is good to.
      const chance = (4 * theory.rmsDelay) / Math.sqrt(n);
      expect(Math.abs(mean - theory.meanDelay)).toBeLessThan(chance + 1e-3 * theory.meanDelay);
      expect(Math.abs(spread / theory.rmsDelay - 1)).toBeLessThan(4 / Math.sqrt(n) + 0.01);
    },
    60_000,
  );

  it("and the share of bursts that are missed, where the tone is weak", () => {
    const scenario = demo("station-dial", [
      "length_s=2000",
      "disturbances=[]",
      "drive.amplitude_v=6.9",
      "receiver.noise_v=0.05",
      "drive.amplitude_noise=0.03",
    ]);
    const { bursts, displacedSteps } = runChain(scenario, {
      recording: "bursts",
      takes: ["bursts"],
    });
    const missed = bursts.filter((burst) => burst.outcome === outcome.missed).length;
    const { missProbability } = detectionDelay(scenario)!;
    expect(missProbability).toBeGreaterThan(0.005);
    expect(missProbability).toBeLessThan(0.5);
    const n = bursts.length;
    const chance = 4 * Math.sqrt((missProbability * (1 - missProbability)) / n);
    // The theory gives a miss probability to some tenth of itself.
    expect(Math.abs(missed / n - missProbability)).toBeLessThan(chance + 0.1 * missProbability);
    expect(displacedSteps).toBeLessThanOrEqual(-missed / 2);
  });
});
