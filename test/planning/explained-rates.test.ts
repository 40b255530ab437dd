import { describe, expect, it } from "vitest";
import { explainedRate, explainedRates, RateCourse } from "../../src/stages/oscillator/index.ts";
import { observatory } from "./scenario-of.ts";

describe("explainedRates", () => {
  it.each([
    [50000, 0],
    // A wave that peaks at noon is at its mean at midnight, so that a ramp leaves no more of it than it had.
    [43200, 3],
  ])(
    "add up to the mean of the rate over whole days, hour by hour (peak %s s, ramp %s K/day)",
    (dailyPeak, rampKPerDay) => {
      const scenario = observatory((changed) => {
        changed.length = 4 * 86400;
        changed.environment = { meanC: 14, dailyAmplitudeK: 6, dailyPeak, rampKPerDay };
        changed.reference.agingPerDay = 3e-9;
        changed.reference.temperature = {
          linearPerK: 1e-7,
          parabolicPerK2: -3.4e-8,
          turnoverC: 20,
        };
      });
      const course = new RateCourse(scenario.reference, scenario.environment);
      const hours = 4 * 24;
      let mean = 0;
      for (let hour = 0; hour < hours; hour++) mean += course.rateAt((hour + 0.5) * 3600) / hours;
      // The midpoint rule errs by a ramp's (Δt)²/12 a step.
      expect(explainedRate(scenario) / mean).toBeCloseTo(1, rampKPerDay === 0 ? 9 : 3);
    },
  );

  it("are the offset alone where nothing else is said", () => {
    const scenario = observatory((changed) => {
      changed.reference.agingPerDay = 0;
    });
    expect(explainedRates(scenario)).toEqual([{ cause: "offset", rate: 2e-11 }]);
  });
});
