import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { decimate, decimatedLine } from "../../src/view/chart/index.ts";

const record = fc.array(
  fc.tuple(
    fc.double({ min: 0, max: 3, noNaN: true }),
    fc.oneof({ weight: 9, arbitrary: fc.integer({ min: -99, max: 99 }) }, fc.constant(NaN)),
  ),
  { maxLength: 300 },
);

describe("decimate", () => {
  it("keeps at most two points a column, the lowest and the highest among them, in order", () => {
    fc.assert(
      fc.property(record, (steps) => {
        let at = 0;
        const x = steps.map(([step]) => (at += step * 0.3));
        const y = steps.map(([, value]) => value);
        const kept = [...decimate(x, y)].filter((i) => i >= 0);
        expect(kept).toEqual([...new Set(kept)].sort((a, b) => a - b));
        for (const column of new Set(x.map(Math.floor))) {
          const inColumn = y.filter((v, i) => Math.floor(x[i]!) === column && !Number.isNaN(v));
          const shown = kept.filter((i) => Math.floor(x[i]!) === column).map((i) => y[i]!);
          expect(shown.length).toBeLessThanOrEqual(2);
          expect(shown.length > 0).toBe(inColumn.length > 0);
          if (inColumn.length > 0) {
            expect(Math.min(...shown)).toBe(Math.min(...inColumn));
            expect(Math.max(...shown)).toBe(Math.max(...inColumn));
          }
        }
      }),
      { seed: 13 },
    );
  });

  it("breaks the line at every gap, however narrow", () => {
    expect([...decimate([0, 1, 2, 3], [5, NaN, 6, 7])]).toEqual([0, -1, 2, 3]);
    expect([...decimate([0, 0.2, 0.4], [5, NaN, 6])]).toEqual([0, -1, 2]);
    expect([...decimate([0, 1], [NaN, NaN])]).toEqual([]);
    expect(() => decimate([0], [])).toThrow("equal length, got 1 and 0");
  });

  it("gives a path with a new start after a gap", () => {
    const d = decimatedLine(
      Float64Array.of(0, 1, 2, 3, 4),
      Float64Array.of(1, 2, NaN, 3, 4),
      (v) => 10 * v,
    );
    expect(d).toBe("M0,10L1,20M3,30L4,40");
  });
});
