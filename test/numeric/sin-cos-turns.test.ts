import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cosTurns, sinTurns } from "../../src/numeric/index.ts";
import { rounding, worstRelativeError } from "./high-precision.ts";

const angle = fc.double({ min: -1e9, max: 1e9, noNaN: true });
const seeded = { seed: 3, numRuns: 1000 };

describe("sinTurns and cosTurns", () => {
  it("are within 1.5 units in the last place of high-precision values", () => {
    expect(worstRelativeError("sinTurns", sinTurns)).toBeLessThan(3 * rounding);
    expect(worstRelativeError("cosTurns", cosTurns)).toBeLessThan(3 * rounding);
  });

  it("are exact at every quarter of a turn, of either sign and far out", () => {
    for (const whole of [0, -1, 7, -123456789, 2 ** 40]) {
      expect([0, 0.25, 0.5, 0.75].map((x) => sinTurns(whole + x) + 0)).toEqual([0, 1, 0, -1]);
      expect([0, 0.25, 0.5, 0.75].map((x) => cosTurns(whole + x) + 0)).toEqual([1, 0, -1, 0]);
    }
  });

  it("repeat exactly after a turn and are odd and even exactly", () => {
    fc.assert(
      fc.property(angle, (x) => {
        const inTurn = x - Math.floor(x);
        fc.pre(Math.floor(x) + inTurn === x);
        expect(sinTurns(x)).toBeCloseTo(sinTurns(inTurn), 15);
        expect(sinTurns(-x) + 0).toBe(-sinTurns(x) + 0);
        expect(cosTurns(-x) + 0).toBe(cosTurns(x) + 0);
      }),
      seeded,
    );
  });

  it("have squares that add up to 1", () => {
    fc.assert(
      fc.property(angle, (x) => {
        const s = sinTurns(x);
        const c = cosTurns(x);
        expect(Math.abs(s * s + c * c - 1)).toBeLessThan(6 * rounding);
      }),
      seeded,
    );
  });

  it("are NaN where the angle is not finite", () => {
    expect([Infinity, -Infinity, NaN].map(sinTurns)).toEqual([NaN, NaN, NaN]);
    expect([Infinity, -Infinity, NaN].map(cosTurns)).toEqual([NaN, NaN, NaN]);
  });
});
