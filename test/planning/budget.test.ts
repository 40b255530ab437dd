import { describe, expect, it } from "vitest";
import { budget, budgetCurve } from "../../src/planning/index.ts";
import { observatory, school } from "./scenario-of.ts";

describe("budget", () => {
  it("adds random contributions in squares (GUM 5.1.2), and nothing else to them", () => {
    const { rows, totalRandomRms } = budget(observatory());
    const squares = rows
      .filter(({ kind }) => kind === "random")
      .reduce((sum, { fractionOfPeriodRms: size }) => sum + size * size, 0);
    expect(totalRandomRms ** 2 / squares).toBeCloseTo(1, 12);
  });

  it("is √2·σ over the gate for white jitter alone (Rubiola 2005)", () => {
    for (const [gate, periods] of [
      ["single", 1],
      [9.5, 10],
    ] as const) {
      const { rows, totalRandomRms, gate: length } = budget(school(), gate);
      expect(length).toBeCloseTo(periods, 9);
      expect(totalRandomRms).toBeCloseTo((Math.SQRT2 * 1e-3) / periods, 9);
      expect(rows.filter(({ kind }) => kind === "random")).toHaveLength(1);
    }
  });

  it("names what is systematic and what is explained", () => {
    const { rows, systematicBound } = budget(observatory());
    expect(systematicBound).toBe(1e-8);
    const explained = rows.filter(({ kind }) => kind === "explained");
    // 5.01368954675 Hz in steps of 1e-7 Hz: 5.0136895 or 5.0136896, half a step off at most.
    const setting = explained.find(({ cause }) => cause === "setting error")!;
    expect(Math.abs(setting.fractionOfPeriodRms)).toBeLessThanOrEqual(1.001 * (0.5e-7 / 5.0137));
    expect(Math.abs(setting.fractionOfPeriodRms)).toBeGreaterThan(0.8e-8);
    const offset = explained.find(({ cause }) => cause === "offset")!;
    expect(offset.fractionOfPeriodRms).toBe(2e-11);
  });

  it("gives the source's own wandering by Allan deviation: h0/(2τ) (IEEE Std 1139)", () => {
    const { rows, gate } = budget(observatory());
    const white = rows.find(({ kind, cause }) => kind === "accumulating" && cause === "white FM")!;
    expect(white.fractionOfPeriodRms / (2e-11 / Math.sqrt(gate))).toBeCloseTo(1, 9);
  });

  it("lets a time base that walks in frequency stray for half a run before a reading, on the average", () => {
    const scenario = observatory((changed) => {
      changed.counter.timebase = {
        fractionalOffset: 0,
        uncertainty: 0,
        noise: { ...changed.reference.noise, whitePmRms: 0, h0: 0, hMinus1: 0, hMinus2: 1e-24 },
      };
    });
    const { rows, gate } = budget(scenario);
    const walk = rows.find(({ stage }) => stage === "time base")!;
    // Wiener process of D = 2π²·h₋₂ a second: D·t at t, D·G/3 for the mean over a gate from zero (own algebra).
    const variance = 2 * Math.PI ** 2 * 1e-24 * ((20000 - gate) / 2 + gate / 3);
    expect(walk.fractionOfPeriodRms / Math.sqrt(variance)).toBeCloseTo(1, 9);
  });

  it("shares no noise with a counter that runs on the reference", () => {
    const scenario = observatory((changed) => {
      changed.counter.timebase = "reference";
      changed.reference.agingPerDay = 0;
    });
    const { rows, systematicBound } = budget(scenario);
    expect(rows.some(({ kind }) => kind === "accumulating")).toBe(false);
    expect(systematicBound).toBe(2e-11);
  });

  it("refuses a gate that is not above zero", () => {
    expect(() => budget(school(), 0)).toThrow(RangeError);
  });
});

describe("budgetCurve", () => {
  it("follows each cause from a single period to the longest gate", () => {
    const curve = budgetCurve(observatory());
    // The rate is set 9e-9 slow.
    expect(curve.gates[0]).toBeCloseTo(1 / 1.00273790935, 7);
    expect(curve.gates.at(-1)!).toBeGreaterThan(900);
    const delay = curve.rows.find(({ stage }) => stage === "receiver")!;
    const last = curve.gates.length - 1;
    // White time noise: the fraction of the period falls as 1/gate.
    expect(
      (delay.fractions[0]! * curve.gates[0]!) / (delay.fractions[last]! * curve.gates[last]!),
    ).toBeCloseTo(1, 6);
    const bound = curve.rows.find(({ kind }) => kind === "systematic")!;
    expect([...new Set(bound.fractions)]).toEqual([1e-8]);
  });
});
