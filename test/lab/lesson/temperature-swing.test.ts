import { describe, expect, it } from "vitest";
import { lessonScenario, temperatureSwing } from "../../../src/lab/index.ts";
import { demo } from "../../page/lesson-file.ts";

const day = 86400;

describe("temperatureSwing", () => {
  // Another way to the same: the mean of the rate over a run, by adding up 2000 moments of it, for runs that begin at
  // any of 50 hours; the worst of them must lie below the bound, and near it where the run is short.
  it.each(["observatory-own-oscillator", "harbour-tide-gauge"])(
    "bounds what a day's temperature does to the rate of a run (%s)",
    (name) => {
      const scenario = lessonScenario(demo(name));
      const { linearPerK, parabolicPerK2, turnoverC } = scenario.reference.temperature;
      const { meanC, dailyAmplitudeK } = scenario.environment;
      const rate = (t: number) => {
        const apart = meanC + dailyAmplitudeK * Math.cos((2 * Math.PI * t) / day) - turnoverC;
        return linearPerK * apart + parabolicPerK2 * apart * apart;
      };
      const mean = (from: number, length: number) => {
        let sum = 0;
        for (let i = 0; i < 2000; i++) sum += rate(from + ((i + 0.5) / 2000) * length);
        return sum / 2000;
      };
      const longRun = mean(0, day);
      for (const length of [60, 3600, 0.4 * day, 0.8 * day, 1.5 * day, 7.4 * day]) {
        const worst = Math.max(
          ...Array.from({ length: 50 }, (_, i) => Math.abs(mean((i / 50) * day, length) - longRun)),
        );
        const bound = temperatureSwing(scenario, length);
        expect(worst).toBeLessThanOrEqual(bound * 1.001);
        if (length <= 3600) expect(worst).toBeGreaterThan(0.7 * bound);
      }
    },
  );

  it("is nothing where the counter runs on the reference", () => {
    expect(temperatureSwing(lessonScenario(demo("station-dial")), 60)).toBe(0);
  });
});
