import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { twoProductError } from "../../src/numeric/index.ts";
import { asInteger, one } from "./exact-rational.ts";

describe("twoProductError", () => {
  it("restores the exact product, in integer arithmetic", () => {
    const sign = fc.constantFrom(1, -1);
    const size = fc.double({ min: 1e-100, max: 1e100, noNaN: true });
    fc.assert(
      fc.property(size, size, sign, (a, b, s) => {
        const product = s * a * b;
        const error = twoProductError(s * a, b, product);
        expect((asInteger(product) + asInteger(error)) * one).toBe(asInteger(s * a) * asInteger(b));
      }),
      { seed: 5, numRuns: 2000 },
    );
  });

  it("is zero where the product is representable", () => {
    expect(twoProductError(3, 0.5, 1.5)).toBe(0);
    expect(twoProductError(2 ** 26 + 1, 2 ** 26 - 1, 2 ** 52 - 1)).toBe(0);
  });
});
