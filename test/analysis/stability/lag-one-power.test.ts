import { describe, expect, it } from "vitest";
import { timeErrorFromRates } from "../../../src/analysis/index.ts";
import { decimated, lagOnePower, means } from "../../../src/judgement/index.ts";
import { RandomStream } from "../../../src/numeric/index.ts";
import { checksLike, lcgRates } from "./reference-sets.ts";

const powerOf = (data: Float64Array) => lagOnePower(data.slice(), data.length);

describe("lagOnePower", () => {
  // NIST SP 1065, section 5.5.3, evaluated independently on the 1000-point set.
  it.each(checksLike(/^lag1\./))("of the 1000-point set is $computed ($id, $source)", (check) => {
    const m = Number(/m(\d+)$/.exec(check.id)![1]);
    // Time errors: α = p + 2.
    expect(powerOf(decimated(timeErrorFromRates(lcgRates, 1), m)) + 2).toBeCloseTo(
      check.expected,
      9,
    );
  });

  it("is two less for time errors than for the rates they come from, where one difference is taken", () => {
    expect(powerOf(lcgRates)).toBeCloseTo(powerOf(timeErrorFromRates(lcgRates, 1)) + 2, 9);
  });

  it("is 0 for white noise", () => {
    // p̂ = −2r₁ near zero, σ = 2/√n = 0.02 for n = 10 000; 4σ.
    const white = new Float64Array(10000);
    new RandomStream("white", "lag-one").fillNormal(white, 0, white.length);
    expect(Math.abs(powerOf(white))).toBeLessThan(0.08);
  });

  it("is that of the products and squares that gaps leave, each sum over its own number", () => {
    // By hand: mean 0, six squares of 1, and four products of −1 where without the gap there would be five.
    const series = Float64Array.of(1, -1, Number.NaN, 1, -1, 1, -1);
    const r = (-4 / 4) * (5 / 6);
    expect(powerOf(series)).toBeCloseTo(-2 * (r / (1 + r)), 12);
  });

  it("is NaN where nothing varies or too little is left", () => {
    expect(powerOf(new Float64Array(50).fill(3))).toBeNaN();
    expect(powerOf(Float64Array.from([1, 2, 0]))).toBeNaN();
  });
});

describe("decimated and means", () => {
  it("take every m-th sample, or the mean of m, and leave the record as it was", () => {
    const data = Float64Array.from([1, 2, 4, 8, 16]);
    expect([...decimated(data, 2)]).toEqual([1, 4, 16]);
    expect([...means(data, 2)]).toEqual([1.5, 6]);
    expect([...data]).toEqual([1, 2, 4, 8, 16]);
  });
});
