import { describe, expect, it } from "vitest";
import {
  modifiedAllanDeviation,
  mtie,
  overlappingAllanDeviation,
  overlappingHadamardDeviation,
  stabilityTableFromRates,
  stabilityTableFromTimeError,
  timeDeviation,
  timeErrorFromRates,
} from "../../../src/analysis/index.ts";
import { lcgRates } from "./reference-sets.ts";

/** The 1000-point set is white FM. */
const white = () => "white_fm" as const;

describe("stabilityTableFromTimeError", () => {
  const x = timeErrorFromRates(lcgRates, 10);

  it("has a row an octave with the values of the single functions", () => {
    const rows = stabilityTableFromTimeError(x, 10);
    expect(rows.map((row) => row.tauS)).toEqual([10, 20, 40, 80, 160, 320, 640, 1280, 2560]);
    for (const row of rows) {
      const m = row.tauS / 10;
      expect(row.allanDeviation).toBeCloseTo(overlappingAllanDeviation(x, 10, m), 14);
      const fits = 3 * m < x.length;
      expect(row.modifiedAllanDeviation === null).toBe(!fits);
      if (!fits) continue;
      expect(row.modifiedAllanDeviation).toBeCloseTo(modifiedAllanDeviation(x, 10, m), 14);
      expect(row.timeDeviation).toBeCloseTo(timeDeviation(x, 10, m), 12);
      expect(row.hadamardDeviation).toBeCloseTo(overlappingHadamardDeviation(x, 10, m), 14);
      expect(row.mtie).toBe(mtie(x, m));
    }
  });

  it("gives the interval of the 1000-point set at m = 10 (SP 1065, Table 32, from memory; exact edf here)", () => {
    const row = stabilityTableFromTimeError(x, 10, { factors: "all", typeAt: white })[9]!;
    expect(row.noiseType).toBe("white_fm");
    expect(Math.abs(row.degreesOfFreedom! / 146.177 - 1)).toBeLessThan(2e-3);
    expect(Math.abs(row.allanLow! / 8.223942e-2 - 1)).toBeLessThan(1e-3);
    expect(Math.abs(row.allanHigh! / 1.035201e-1 - 1)).toBeLessThan(1e-3);
  });

  it("takes every averaging factor on request", () => {
    expect(stabilityTableFromTimeError(x.slice(0, 21), 1, { factors: "all" })).toHaveLength(10);
  });

  it("leaves out what touches a gap and says how many terms are left", () => {
    const gap = x.slice();
    gap[500] = Number.NaN;
    const [row] = stabilityTableFromTimeError(gap, 10);
    expect(row!.samples).toBe(999 - 3);
    expect(row!.allanDeviation).toBe(overlappingAllanDeviation(gap, 10, 1, "skip"));
  });

  it("counts as many degrees of freedom less as terms are left out", () => {
    const whole = stabilityTableFromTimeError(x, 10, { typeAt: white })[0]!;
    const gaps = x.map((value, i) => (i % 20 === 7 ? Number.NaN : value));
    const row = stabilityTableFromTimeError(gaps, 10, { typeAt: white })[0]!;
    expect(row.noiseType).toBe(whole.noiseType);
    expect(row.samples / whole.samples).toBeLessThan(0.9);
    expect(row.degreesOfFreedom! / whole.degreesOfFreedom!).toBeCloseTo(
      row.samples / whole.samples,
      12,
    );
  });

  it("says nothing about the type of a record that does not vary", () => {
    const rows = stabilityTableFromTimeError(new Float64Array(40), 1);
    expect(rows[0]).toMatchObject({ allanDeviation: 0, noiseType: null, degreesOfFreedom: null });
    expect(rows[0]!.allanHigh).toBeNull();
  });

  it("throws RangeError for a record too short", () => {
    expect(() => stabilityTableFromTimeError(new Float64Array(2), 1)).toThrow(/at least 3 samples/);
  });
});

describe("stabilityTableFromRates", () => {
  it("is the table of the summed time errors when back to back", () => {
    const rates = stabilityTableFromRates(lcgRates, 10, 10);
    const times = stabilityTableFromTimeError(timeErrorFromRates(lcgRates, 10), 10);
    expect(rates.map(({ tauS, allanDeviation, mtie }) => [tauS, allanDeviation, mtie])).toEqual(
      times.map(({ tauS, allanDeviation, mtie }) => [tauS, allanDeviation, mtie]),
    );
  });

  it("never reaches across a missing reading", () => {
    // Two quiet stretches at different rates: any term across the break would show the step.
    const y = Float64Array.from({ length: 21 }, (_, i) => (i === 10 ? Number.NaN : i < 10 ? 1 : 9));
    const rows = stabilityTableFromRates(y, 1, 1);
    expect(rows.map((row) => row.tauS)).toEqual([1, 2, 4]);
    for (const row of rows) expect(row.allanDeviation).toBe(0);
    expect(rows.map((row) => row.samples)).toEqual([18, 14, 6]);
    expect(rows.map((row) => row.mtie)).toEqual([9, 18, 36]);
  });

  it("gives only the Allan deviation with dead time, corrected where the types known beforehand allow", () => {
    const measured = stabilityTableFromRates(lcgRates, 1, 3, { noiseTypes: [], typeAt: white });
    const whiteFm = stabilityTableFromRates(lcgRates, 1, 3, {
      noiseTypes: ["white_fm"],
      typeAt: white,
    });
    const whitePm = stabilityTableFromRates(lcgRates, 1, 3, {
      noiseTypes: ["white_pm"],
      typeAt: white,
    });
    expect(measured[0]!.deadTimeBias).toMatch(/^left in: /);
    expect(whiteFm[0]!.deadTimeBias).toBe("removed");
    expect(whiteFm[0]!.allanDeviation).toBeCloseTo(measured[0]!.allanDeviation, 12);
    const factor = whitePm[0]!.allanDeviation / measured[0]!.allanDeviation;
    expect(factor).toBeCloseTo(Math.sqrt(3 / 2), 12);
    expect(whitePm[0]!.allanHigh! / measured[0]!.allanHigh!).toBeCloseTo(Math.sqrt(3 / 2), 12);
    expect(measured[0]).toMatchObject({ modifiedAllanDeviation: null, hadamardDeviation: null });
    expect(measured[0]).toMatchObject({ timeDeviation: null, mtie: null });
  });

  it("throws RangeError naming gate, spacing or y", () => {
    expect(() => stabilityTableFromRates(lcgRates, 0, 1)).toThrow(/gate must be > 0/);
    expect(() => stabilityTableFromRates(lcgRates, 2, 1)).toThrow(/spacing must be >= gate/);
    expect(() => stabilityTableFromRates(new Float64Array(1), 1, 1)).toThrow(/at least 2 readings/);
  });
});
