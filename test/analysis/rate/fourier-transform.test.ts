import { describe, expect, it } from "vitest";
import { fourierTransform } from "../../../src/judgement/index.ts";

/** The sum of the definition, term by term. */
function direct(re: readonly number[], im: readonly number[]) {
  const n = re.length;
  return re.map((_, k) => {
    let a = 0;
    let b = 0;
    for (let i = 0; i < n; i++) {
      const angle = (-2 * Math.PI * k * i) / n;
      a += re[i]! * Math.cos(angle) - im[i]! * Math.sin(angle);
      b += re[i]! * Math.sin(angle) + im[i]! * Math.cos(angle);
    }
    return [a, b] as const;
  });
}

describe("fourierTransform", () => {
  it.each([1, 2, 8, 3, 7, 12, 30, 61])("agrees with its definition for n = %i", (n) => {
    const re = Array.from({ length: n }, (_, i) => Math.sin(i * i + 1));
    const im = Array.from({ length: n }, (_, i) => Math.cos(3 * i));
    const a = Float64Array.from(re);
    const b = Float64Array.from(im);
    fourierTransform(a, b);
    direct(re, im).forEach(([x, y], k) => {
      expect(a[k]).toBeCloseTo(x, 10);
      expect(b[k]).toBeCloseTo(y, 10);
    });
  });

  it("gives 1 everywhere for an impulse at 0", () => {
    const re = Float64Array.of(1, 0, 0, 0);
    fourierTransform(re, new Float64Array(4));
    expect([...re]).toEqual([1, 1, 1, 1]);
  });

  it("throws RangeError for parts of different length, and for none", () => {
    expect(() => fourierTransform(new Float64Array(3), new Float64Array(2))).toThrow(RangeError);
    expect(() => fourierTransform(new Float64Array(0), new Float64Array(0))).toThrow(RangeError);
  });
});
