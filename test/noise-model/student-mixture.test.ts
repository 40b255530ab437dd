import { describe, expect, it } from "vitest";
import { mixtureQuantile } from "../../src/noise-model/index.ts";
import { checksLike } from "../analysis/stability/reference-sets.ts";

/** JCGM 100:2008, Table G.2, 95 %, to its printed digits: three decimals at 100 degrees of freedom, else two. */
const tableG2 = checksLike(/^t95\.\d+$/).map(({ id, expected }): [number, number, number] => {
  const degrees = Number(id.slice(4));
  return [degrees, expected, degrees === 100 ? 3 : 2];
});

const one = (degrees: number, centre = 0, scale = 1) => ({
  weight: Float64Array.of(3),
  centre: Float64Array.of(centre),
  scale: Float64Array.of(scale),
  degrees,
});

describe("mixtureQuantile", () => {
  it.each(tableG2)("of one part with %d degrees of freedom is t₉₅ = %d", (degrees, t, digits) => {
    expect(Math.abs(mixtureQuantile(one(degrees), 0.975) - t)).toBeLessThan(0.51 * 10 ** -digits);
    expect(Math.abs(mixtureQuantile(one(degrees, 5, 2), 0.025) - (5 - 2 * t))).toBeLessThan(
      1.02 * 10 ** -digits,
    );
  });
});
