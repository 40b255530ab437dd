import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { divide, exponentialLess1, multiply, squareRoot } from "../../src/theory/index.ts";

const complex = fc.record({
  re: fc.double({ min: -20, max: 20, noNaN: true }),
  im: fc.double({ min: -20, max: 20, noNaN: true }),
});
const size = (a: { re: number; im: number }) => Math.hypot(a.re, a.im);

describe("complex numbers", () => {
  it("obey (a·b)/b = a and √a·√a = a, with Re √a >= 0", () => {
    fc.assert(
      fc.property(complex, complex, (a, b) => {
        fc.pre(size(b) > 1e-3);
        const back = divide(multiply(a, b), b);
        expect(size({ re: back.re - a.re, im: back.im - a.im })).toBeLessThan(1e-12 * 20);
        const root = squareRoot(a);
        const square = multiply(root, root);
        expect(root.re).toBeGreaterThanOrEqual(0);
        expect(size({ re: square.re - a.re, im: square.im - a.im })).toBeLessThan(1e-12 * 20);
      }),
      { seed: 1545 },
    );
  });

  it("e^a − 1: Euler's e^{iπ} − 1 = −2, and a + a²/2 for small a", () => {
    const euler = exponentialLess1({ re: 0, im: Math.PI });
    expect(euler.re).toBeCloseTo(-2, 15);
    expect(euler.im).toBeCloseTo(0, 15);
    const small = exponentialLess1({ re: 1e-9, im: 2e-9 });
    expect(small.re).toBeCloseTo(1e-9 + (1e-18 - 4e-18) / 2, 24);
    expect(small.im).toBeCloseTo(2e-9 + 2e-18, 24);
  });
});
