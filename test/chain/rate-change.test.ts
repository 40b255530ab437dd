import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rateChangeWithin } from "../../src/chain/index.ts";
import { RateCourse } from "../../src/stages/oscillator/index.ts";
import { demo } from "./run-chain.ts";

describe("rateChangeWithin", () => {
  const { reference } = demo("school-laboratory");
  const size = (max: number) => fc.double({ min: -max, max, noNaN: true });

  it("is no less than any change of the rate", () => {
    const course = fc.record({
      agingPerDay: size(1e-8),
      linearPerK: size(1e-6),
      parabolicPerK2: size(1e-7),
      turnoverC: size(40),
      meanC: size(30),
      dailyAmplitudeK: fc.double({ min: 0, max: 10, noNaN: true }),
      rampKPerDay: size(5),
      dailyPeak: fc.integer({ min: 0, max: 86399 }),
    });
    const length = 3 * 86400;
    const moment = fc.integer({ min: 0, max: length - 5000 });
    fc.assert(
      fc.property(course, moment, fc.integer({ min: 1, max: 5000 }), (c, from, wait) => {
        const { agingPerDay, linearPerK, parabolicPerK2, turnoverC, ...environment } = c;
        const temperature = { linearPerK, parabolicPerK2, turnoverC };
        const oscillator = { ...reference, agingPerDay, temperature };
        const rates = new RateCourse(oscillator, environment);
        const change = Math.abs(rates.rateAt(from + wait) - rates.rateAt(from));
        const bound = rateChangeWithin(oscillator, environment, wait, length);
        expect(change).toBeLessThanOrEqual(bound * (1 + 1e-9) + 1e-16);
      }),
      { seed: 4 },
    );
  });

  it("is nothing without ageing and temperature", () => {
    const { environment } = demo("school-laboratory");
    expect(rateChangeWithin(reference, environment, 1e6, 1e9)).toBe(0);
  });
});
