import { describe, expect, it } from "vitest";
import { edgeRecord } from "../../src/judgement/index.ts";
import type { PeriodReadings } from "../../src/readings/index.ts";

const readings = (changes: Partial<PeriodReadings>): PeriodReadings => ({
  kind: "period",
  period: Float64Array.of(0.999, 0.999, 0.999),
  cycles: Float64Array.of(10, 10, 10),
  start: null,
  nominalPeriod: 1,
  backToBack: true,
  ...changes,
});

describe("edgeRecord", () => {
  it("puts readings of one period on a straight line", () => {
    const { edge, x, stretches, joined } = edgeRecord(readings({}));
    expect([...edge]).toEqual([0, 10, 20, 30]);
    x.forEach((v, k) => {
      expect(v).toBeCloseTo(0.01 * k, 14);
    });
    expect([stretches, joined]).toEqual([1, true]);
  });

  it("joins dead time where the cycles in it are certain", () => {
    // 10 cycles of 0.999 s, then 4 cycles without looking, and so on.
    const start = Float64Array.of(0, 13.986, 27.972);
    const { edge, x, joined } = edgeRecord(readings({ start, backToBack: false }));
    expect(joined).toBe(true);
    expect([...edge]).toEqual([0, 10, 14, 24, 28, 38]);
    x.forEach((v, k) => {
      expect(v).toBeCloseTo(0.001 * edge[k]!, 12);
    });
  });

  it("does not join where starts are no edges, or not recorded", () => {
    const start = Float64Array.of(0, 14.4, 28.8);
    const uncertain = edgeRecord(readings({ start, backToBack: false }));
    expect(uncertain.joined).toBe(false);
    expect(uncertain.why).toMatch(/not certain/);
    const unknown = edgeRecord(readings({ backToBack: false }));
    expect(unknown.joined).toBe(false);
    expect(unknown.why).toMatch(/does not tell how many cycles passed/);
  });

  it("does not join where the readings scatter by much of a cycle", () => {
    const start = Float64Array.of(0, 14, 28);
    const period = Float64Array.of(0.99, 1.01, 0.995);
    expect(edgeRecord(readings({ start, period, backToBack: false })).joined).toBe(false);
  });

  it("does not take a part of a cycle lost in a gap for rate", () => {
    const count = 40;
    const period = new Float64Array(count).fill(0.999);
    for (let i = 15; i < 20; i++) period[i] = Number.NaN;
    const cycles = period.map((p) => (Number.isNaN(p) ? p : 10));
    const start = (lost: number) =>
      Float64Array.from({ length: count }, (_, i) => 9.99 * i + (i >= 20 ? lost : 0));
    expect(edgeRecord(readings({ period, cycles, start: start(0) })).why).toBe(
      "the number of cycles in the break is certain",
    );
    const broken = edgeRecord(readings({ period, cycles, start: start(0.2) }));
    expect([broken.joined, broken.why]).toEqual([
      false,
      "0.2 cycle was lost or gained in the break, more than noise explains, which would pass for rate",
    ]);
    // As much jitter explains it: 0.2 of a second lost is no more than what the readings do anyhow.
    const noisy = period.map((p, i) => p + 0.003 * Math.sin(i * i));
    expect(edgeRecord(readings({ period: noisy, cycles, start: start(0.1) })).joined).toBe(true);
  });

  it("keeps a missing reading as a gap", () => {
    const period = Float64Array.of(0.999, Number.NaN, 0.999);
    const cycles = Float64Array.of(10, Number.NaN, 10);
    expect(edgeRecord(readings({ period, cycles })).stretches).toBe(2);
    const start = Float64Array.of(0, Number.NaN, 19.98);
    const joined = edgeRecord(readings({ period, cycles, start }));
    expect(joined.joined).toBe(true);
    expect([...joined.edge]).toEqual([0, 10, 20, 30]);
  });

  it("joins nothing over a time that no double holds", () => {
    const period = Float64Array.of(0.999, Number.NaN, 0.999);
    const cycles = Float64Array.of(10, Number.NaN, 10);
    const start = Float64Array.of(0, 10, Number.POSITIVE_INFINITY);
    expect(edgeRecord(readings({ period, cycles, start })).joined).toBe(false);
  });

  it("throws RangeError where every reading is missing", () => {
    const period = new Float64Array(3).fill(Number.NaN);
    expect(() => edgeRecord(readings({ period }))).toThrow(/must not all be missing/);
  });
});
