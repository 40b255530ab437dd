import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { EdgeGrid } from "../../src/chain/edge-grid.ts";
import { Instant } from "../../src/numeric/instant.ts";

const at = (seconds: number) => new Instant().set(seconds, 0);

describe("EdgeGrid", () => {
  it("lays edge n at n·T·(1 − s), exactly", () => {
    const grid = new EdgeGrid(0.25, 0.5);
    const moment = new Instant();
    grid.moment(1_000_001, moment);
    expect(moment.minus(at(125_000.125))).toBe(0);
    expect(grid.nominal(1_000_001)).toBe(250_000.25);
  });

  it("finds the first edge from a moment on: it is not before, the one before it is", () => {
    const moments = fc.double({ min: 0, max: 1e8, noNaN: true });
    const periods = fc.double({ min: 1e-7, max: 10, noNaN: true });
    fc.assert(
      fc.property(moments, periods, (seconds, period) => {
        const grid = new EdgeGrid(period, 6.1e-5);
        const n = grid.firstFrom(at(seconds));
        const moment = new Instant();
        expect(grid.moment(n, moment)).toBeUndefined();
        expect(moment.isBefore(at(seconds))).toBe(false);
        grid.moment(n - 1, moment);
        expect(moment.isBefore(at(seconds))).toBe(true);
      }),
      { seed: 3 },
    );
  });

  it("goes on with its phase when the period is switched: only what is left of a period is stretched", () => {
    const grid = new EdgeGrid(1, 0);
    // A quarter of a period before edge 11; a quarter of the new period of 2 s remains.
    grid.switchPeriod(at(10.75), 11, 2);
    const moment = new Instant();
    grid.moment(11, moment);
    expect(moment.toSeconds()).toBe(11.25);
    grid.moment(12, moment);
    expect(moment.toSeconds()).toBe(13.25);
    expect(grid.nominal(12)).toBe(13.25);
    expect(grid.lapse(10, 10, 12)).toBe(3.25);
    expect(grid.lapse(11, 11.25, 14)).toBe(6);
  });
});
