import { describe, expect, it } from "vitest";
import { extremeDeviates } from "../../src/judgement/index.ts";
import { median } from "../../src/numeric/index.ts";
import { normalStream } from "./power-law-noise.ts";

/** Rosner's example, in NIST/SEMATECH e-Handbook 1.3.5.17.3 (from memory). */
const rosner = [
  -0.25, 0.68, 0.94, 1.15, 1.2, 1.26, 1.26, 1.34, 1.38, 1.43, 1.49, 1.49, 1.55, 1.56, 1.58, 1.65,
  1.69, 1.7, 1.76, 1.77, 1.81, 1.91, 1.94, 1.96, 1.99, 2.06, 2.09, 2.1, 2.14, 2.15, 2.23, 2.24,
  2.26, 2.35, 2.37, 2.4, 2.47, 2.54, 2.62, 2.64, 2.9, 2.92, 2.92, 2.93, 3.21, 3.26, 3.3, 3.59, 3.68,
  4.3, 4.64, 5.34, 5.42, 6.01,
];

describe("extremeDeviates", () => {
  it("finds the three outliers of Rosner's example, of which the first two mask each other", () => {
    const values = Float64Array.from(rosner);
    const centre = median(values);
    // The handbook: R = 3.119, 2.943, 3.179 against 3.159, 3.151, 3.144; only the third exceeds, so three.
    const found = extremeDeviates(
      values.map((v) => v - centre),
      0.05,
      10 / 54,
    );
    expect(found.map((i) => rosner[i])).toEqual([5.34, 5.42, 6.01]);
  });

  it("takes away from normal values as rarely as its level says", () => {
    let records = 0;
    for (let s = 0; s < 400; s++) {
      const normal = normalStream(`esd ${s}`);
      const values = Float64Array.from({ length: 200 }, () => normal());
      if (extremeDeviates(values, 0.05, 0.1).length > 0) records++;
    }
    // 20 expected; 4 standard deviations are 17.
    expect(records).toBeGreaterThan(3);
    expect(records).toBeLessThan(37);
  });

  it("keeps its scale beside values of any size, and knows none among equal or few values", () => {
    const normal = normalStream("huge");
    const values = Float64Array.from({ length: 100 }, () => normal());
    values[10] = 1e12;
    values[11] = Number.NaN;
    values[12] = -20;
    expect(extremeDeviates(values, 1e-3, 0.1)).toEqual([10, 12]);
    // No double holds the square of these.
    values[10] = 1e308;
    values[12] = -1e200;
    expect(extremeDeviates(values, 1e-3, 0.1)).toEqual([10, 12]);
    expect(extremeDeviates(new Float64Array(50), 1e-3, 0.1)).toEqual([]);
    expect(extremeDeviates(Float64Array.of(0, 0, 0, 9), 1e-3, 0.1)).toEqual([]);
  });

  it("finds a value however far out, among more than a million", () => {
    const values = Float64Array.from({ length: 1_100_000 }, (_, i) => (i % 2 === 0 ? 1 : -1));
    values[70_000] = 1e5;
    expect(extremeDeviates(values, 1e-3, 0.15)).toEqual([70_000]);
  });
});
