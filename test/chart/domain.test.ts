import { describe, expect, it } from "vitest";
import {
  finiteExtent,
  padLinear,
  padLog,
  robustDomain,
  squareDecades,
} from "../../src/view/chart/index.ts";
import { deviates } from "./deviates.ts";

describe("finiteExtent", () => {
  it("passes over gaps and infinities", () => {
    expect(finiteExtent([3, NaN], Float64Array.of(-1, Infinity))).toEqual([-1, 3]);
    expect(finiteExtent([NaN])).toBeNull();
  });
});

describe("padded domains", () => {
  it("leave room at both ends, and open where there is but one value", () => {
    expect(padLinear([0, 10], 0.1)).toEqual([-1, 11]);
    expect(padLinear([0, 0], 0.1)).toEqual([-1, 1]);
    const [low, high] = padLog([5, 5], 0);
    expect(Math.log10(high / low)).toBeCloseTo(0.5, 12);
    expect(Math.sqrt(low * high)).toBeCloseTo(5, 12);
  });
});

describe("squareDecades", () => {
  it("makes a decade equally long on both axes by widening one", () => {
    const [x, y] = squareDecades([1, 1e6], [1e-9, 1e-6], 600, 400);
    const perDecade = [600 / Math.log10(x[1] / x[0]), 400 / Math.log10(y[1] / y[0])];
    expect(perDecade[0]).toBeCloseTo(perDecade[1]!, 9);
    expect([x[0], x[1]]).toEqual([1, 1e6]);
    expect(y[0]).toBeLessThan(1e-9);
  });

  it("leaves alone what would have to be more than doubled", () => {
    const [x, y] = squareDecades([1, 10], [1e-12, 1], 400, 400);
    expect([x, y]).toEqual([
      [1, 10],
      [1e-12, 1],
    ]);
  });
});

describe("robustDomain", () => {
  it("shows all of well-behaved readings and leaves out a slip of a whole tick", () => {
    const next = deviates(3);
    const tame = Float64Array.from({ length: 1000 }, () => 1e-7 * next());
    expect(robustDomain(tame)).toEqual(finiteExtent(tame));
    const wild = Float64Array.from([...tame, 0.02, NaN]);
    expect(robustDomain(wild)).toEqual(finiteExtent(tame));
    expect(robustDomain(Float64Array.of(1, 1, 1, 1, 2))).toEqual([1, 2]);
    expect(robustDomain(Float64Array.of(NaN))).toBeNull();
  });
});
