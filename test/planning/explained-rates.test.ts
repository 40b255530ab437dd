import { describe, expect, it } from "vitest";
import { RateCourse } from "../../src/oscillator/rate-course.ts";
import { explainedRates } from "../../src/planning/explained-rates.ts";
import { observatory } from "./scenario-of.ts";

describe("explainedRates", () => {
  it("add up to the mean of the rate over whole days, written out hour by hour", () => {
    const scenario = observatory((changed) => {
      changed.length = 4 * 86400;
      changed.environment = { meanC: 14, dailyAmplitudeK: 6, dailyPeak: 50000, rampKPerDay: 0 };
      changed.reference.agingPerDay = 3e-9;
      changed.reference.temperature = { linearPerK: 1e-7, parabolicPerK2: -3.4e-8, turnoverC: 20 };
    });
    const course = new RateCourse(scenario.reference, scenario.environment);
    const hours = 4 * 24;
    let mean = 0;
    for (let hour = 0; hour < hours; hour++) mean += course.rateAt((hour + 0.5) * 3600) / hours;
    const sum = explainedRates(scenario).reduce((total, { rate }) => total + rate, 0);
    expect(sum / mean).toBeCloseTo(1, 9);
  });

  it("are the offset alone where nothing else is said", () => {
    const scenario = observatory((changed) => {
      changed.reference.agingPerDay = 0;
    });
    expect(explainedRates(scenario)).toEqual([{ cause: "offset", rate: 2e-11 }]);
  });
});
