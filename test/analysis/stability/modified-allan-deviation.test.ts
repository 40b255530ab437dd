import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { modifiedAllanDeviation, overlappingAllanDeviation } from "../../../src/analysis/index.ts";
import { RandomStream } from "../../../src/numeric/index.ts";

/** The definition with both sums written out. */
const direct = (x: Float64Array, tau0: number, m: number): number => {
  let sum = 0;
  const terms = x.length - 3 * m + 1;
  for (let j = 0; j < terms; j++) {
    let s = 0;
    for (let i = j; i < j + m; i++) s += x[i + 2 * m]! - 2 * x[i + m]! + x[i]!;
    sum += s * s;
  }
  return Math.sqrt(sum / (2 * terms)) / (m * m * tau0);
};

const noise = (seed: string, length: number): Float64Array => {
  const stream = new RandomStream(seed, "modified-allan");
  const x = new Float64Array(length);
  stream.fillNormal(x, 0, length);
  return x;
};

describe("modifiedAllanDeviation", () => {
  it("equals the double sum of the definition, whatever the run of the sums", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 900 }), fc.integer({ min: 0, max: 40 }), (m, more) => {
        const x = noise(`${m}`, 3 * m + more + 700);
        expect(modifiedAllanDeviation(x, 2, m) / direct(x, 2, m)).toBeCloseTo(1, 10);
      }),
      { seed: 811, numRuns: 12 },
    );
  });

  it("loses nothing to rounding on a record with a large frequency offset", () => {
    // 1e-12 s of noise on a slope of 1e-5 over 20 000 s: one ulp of x is 3e-17 s.
    const quiet = noise("offset", 20000).map((v) => 1e-12 * v);
    const x = quiet.map((v, i) => v + 1e-5 * i);
    const ratio = modifiedAllanDeviation(x, 1, 512) / modifiedAllanDeviation(quiet, 1, 512);
    expect(Math.abs(ratio - 1)).toBeLessThan(1e-4);
  });

  it("is the Allan deviation at m = 1, and D·τ/√2 for linear frequency drift D", () => {
    const x = noise("one", 100);
    expect(modifiedAllanDeviation(x, 1, 1)).toBeCloseTo(overlappingAllanDeviation(x, 1, 1), 14);
    const drift = Float64Array.from({ length: 64 }, (_, i) => (2 ** -20 * i * i) / 2);
    expect(modifiedAllanDeviation(drift, 1, 8) / ((2 ** -20 * 8) / Math.SQRT2)).toBeCloseTo(1, 13);
  });

  it("stands to the Allan variance as (m² + 1)/(2m²) under white FM (exact; TN 1337, Table 2 prints 0.5 as limit)", () => {
    // 400 000 readings, m = 4: each variance has about 2.5e5 degrees of freedom, relative spread 0.003; the two
    // share their data, so 4σ = 0.012 is generous (a false alarm below 1 in 10 000).
    const y = noise("white FM", 400000);
    const x = new Float64Array(y.length + 1);
    for (let i = 0; i < y.length; i++) x[i + 1] = x[i]! + y[i]!;
    const ratio = (modifiedAllanDeviation(x, 1, 4) / overlappingAllanDeviation(x, 1, 4)) ** 2;
    expect(Math.abs(ratio / (17 / 32) - 1)).toBeLessThan(0.012);
  });

  it("keeps a gap visible, or leaves out every mean that holds it", () => {
    const x = noise("gap", 60);
    x[30] = Number.NaN;
    expect(modifiedAllanDeviation(x, 1, 3)).toBeNaN();
    // Terms use nine samples in a row: those left are the terms of the two pieces.
    const pieces = [x.slice(0, 30), x.slice(31)];
    const squares = pieces.map((p) => direct(p, 1, 3) ** 2 * (p.length - 8));
    const terms = pieces.reduce((sum, p) => sum + p.length - 8, 0);
    const expected = Math.sqrt((squares[0]! + squares[1]!) / terms);
    expect(modifiedAllanDeviation(x, 1, 3, "skip")).toBeCloseTo(expected, 12);
  });

  it("does not know an offset of the time error, with a gap as little as without", () => {
    // Second differences take an offset out; multiples of 2⁻³² s up to 2²¹ s are doubles, so that it is added exactly.
    const x = noise("offset", 700).map((v) => Math.round(4096 * v) / 2 ** 32);
    x[0] = Number.NaN;
    x[100] = Number.NaN;
    const aside = x.map((v) => v + 2 ** 20);
    for (const m of [1, 8]) {
      const there = modifiedAllanDeviation(x, 1, m, "skip");
      expect(Math.abs(modifiedAllanDeviation(aside, 1, m, "skip") / there - 1)).toBeLessThan(1e-12);
    }
  });

  it("takes m up to N/3 and throws RangeError beyond", () => {
    expect(modifiedAllanDeviation(noise("third", 30), 1, 10)).toBeGreaterThan(0);
    expect(() => modifiedAllanDeviation(noise("third", 29), 1, 10)).toThrow(/3m <= N = 29/);
  });
});
