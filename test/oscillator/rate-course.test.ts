import { describe, expect, it } from "vitest";
import type { Environment, OscillatorParameters } from "../../src/stages/oscillator/index.ts";
import { RateCourse } from "../../src/stages/oscillator/index.ts";

const still: Environment = { meanC: 20, dailyAmplitudeK: 0, dailyPeak: 0, rampKPerDay: 0 };
const plain = {
  fractionalOffset: 0,
  agingPerDay: 0,
  temperature: { linearPerK: 0, parabolicPerK2: 0, turnoverC: 25 },
};
type Course = Pick<OscillatorParameters, "fractionalOffset" | "agingPerDay" | "temperature">;

/** ∫ y dt from 0 to t by Gauss-Legendre with three points a panel; y as the model is written down. */
function byQuadrature(p: Course, env: Environment, t: number) {
  const y = (at: number) => {
    const angle = (2 * Math.PI * (at - env.dailyPeak)) / 86400;
    const celsius =
      env.meanC + (env.rampKPerDay * at) / 86400 + env.dailyAmplitudeK * Math.cos(angle);
    const above = celsius - p.temperature.turnoverC;
    return (
      p.fractionalOffset +
      (p.agingPerDay * at) / 86400 +
      p.temperature.linearPerK * above +
      p.temperature.parabolicPerK2 * above * above
    );
  };
  const panels = 400;
  const h = t / panels;
  let sum = 0;
  for (let i = 0; i < panels; i++) {
    const middle = (i + 0.5) * h;
    const off = (h / 2) * Math.sqrt(0.6);
    sum += (h / 18) * (5 * y(middle - off) + 8 * y(middle) + 5 * y(middle + off));
  }
  return { integral: sum, rate: y(t) };
}

const lively: [Course, Environment] = [
  {
    fractionalOffset: 3e-6,
    agingPerDay: 2e-8,
    temperature: { linearPerK: 4e-8, parabolicPerK2: -3.4e-8, turnoverC: 25 },
  },
  { meanC: 12, dailyAmplitudeK: 6, dailyPeak: 50000, rampKPerDay: 0.7 },
];

describe("RateCourse", () => {
  it.each([0.2, 3600, 40000, 86400, 5 * 86400])(
    "integrates the rate as quadrature does, to %s s",
    (t) => {
      const course = new RateCourse(...lively);
      const { integral, rate } = byQuadrature(...lively, t);
      const closed = course.steadyRate * t + course.variableIntegral(t);
      // The closed form subtracts terms of some 0.1 s here: a rounding of 3e-17 s is its floor.
      expect(Math.abs(closed - integral)).toBeLessThan(1e-12 * Math.abs(integral) + 3e-17);
      expect(Math.abs(course.rateAt(t) / rate - 1)).toBeLessThan(1e-11);
    },
  );

  it.each([0.2, 5000, 4e5])("solves u = t + ∫y dt at u = %s s", (u) => {
    const course = new RateCourse(...lively);
    const x = course.variableTimeError(u);
    const t = u - course.steadySlope * u - x;
    const again = t + byQuadrature(...lively, t).integral;
    expect(Math.abs(again / u - 1)).toBeLessThan(4e-16);
  });

  it("makes a clock with the rate −6.1e-5 exactly that slow: u = (1 − 6.1e-5)·t", () => {
    const course = new RateCourse({ ...plain, fractionalOffset: -6.1e-5 }, still);
    const slope = course.steadySlope;
    // rate = s/(1 − s): frequency over nominal, less one, from the slope of the time error.
    expect(slope / (1 - slope)).toBeCloseTo(-6.1e-5, 19);
    expect(course.variableTimeError(1e6)).toBe(0);
    expect(course.rateAt(12345)).toBe(-6.1e-5);
  });

  it("gives ageing a·t²/2", () => {
    const course = new RateCourse({ ...plain, agingPerDay: 86400 * 1e-12 }, still);
    expect(course.variableIntegral(1e6)).toBeCloseTo(0.5, 14);
  });

  it("loses 1.175 s a day 20 K off the turnover of a tuning fork at −0.034 ppm/K² (usual data-sheet value, from memory)", () => {
    const fork = { linearPerK: 0, parabolicPerK2: -0.034e-6, turnoverC: 25 };
    const course = new RateCourse({ ...plain, temperature: fork }, { ...still, meanC: 5 });
    expect(course.steadyRate * 86400).toBeCloseTo(-1.175, 3);
  });

  it("is warmest, and fastest by a linear coefficient, at the daily peak", () => {
    const linear = { linearPerK: 1e-9, parabolicPerK2: 0, turnoverC: 20 };
    const env = { ...still, dailyAmplitudeK: 5, dailyPeak: 54000 };
    const course = new RateCourse({ ...plain, temperature: linear }, env);
    expect(course.rateAt(54000)).toBeCloseTo(5e-9, 20);
    expect(course.rateAt(54000 + 43200)).toBeCloseTo(-5e-9, 20);
    expect(course.variableIntegral(86400)).toBeCloseTo(0, 18);
  });

  it("throws RangeError for a rate of −1 and below", () => {
    expect(() => new RateCourse({ ...plain, fractionalOffset: -1 }, still)).toThrow(/must be > -1/);
  });
});
