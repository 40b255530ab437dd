import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { EdgeGrid, EdgeRow } from "../../src/chain/index.ts";
import { Instant } from "../../src/numeric/index.ts";

const at = (seconds: number) => new Instant().set(seconds, 0);

describe("EdgeGrid", () => {
  it("lays edge n at n·T·(1 − s), exactly", () => {
    const grid = new EdgeGrid(0.25, 0.5);
    const moment = new Instant();
    grid.moment(1_000_001, moment);
    expect(moment.minus(at(125_000.125))).toBe(0);
    expect(grid.nominal(1_000_001)).toBe(250_000.25);
  });

  it("gives the moments of a row as one by one, each with its error taken off", () => {
    const grid = new EdgeGrid(0.199453946, 6.1e-5);
    const row = new EdgeRow(50);
    const rowMoment = new Instant();
    const moment = new Instant();
    const compare = (first: number, stride: number) => {
      row.edges = 50;
      row.variables.forEach((_, i) => {
        row.variables[i] = 1e-9 * i;
        row.noiseErrors[i] = 3e-4 * Math.sin(i);
      });
      grid.moments(first, stride, row);
      for (let i = 0; i < 50; i++) {
        grid.moment(first + i * stride, moment);
        moment.add(-row.variables[i]! - row.noiseErrors[i]!);
        row.moment(i, rowMoment);
        // Two roundings of a remainder below 1 s.
        expect(Math.abs(rowMoment.minus(moment))).toBeLessThan(3e-16);
        expect(rowMoment.fraction).toBeGreaterThanOrEqual(0);
        expect(rowMoment.fraction).toBeLessThan(1);
      }
    };
    compare(1, 1);
    compare(3_000_000_001, 5);
    grid.switchPeriod(at(598_361_000.25), 3_000_000_260, 0.3);
    compare(3_000_000_260, 1);
    expect(grid.isEvenFrom(3_000_000_259)).toBe(false);
    expect(grid.isEvenFrom(3_000_000_260)).toBe(true);
  });

  it("never puts a remainder at 1: what is a rounding below a whole second is that second", () => {
    const grid = new EdgeGrid(1, 0);
    const row = new EdgeRow(1);
    row.edges = 1;
    row.noiseErrors[0] = 1e-17;
    grid.moments(5, 1, row);
    expect([row.wholes[0], row.fractions[0]]).toEqual([5, 0]);
    expect(() => grid.moments(1e17, 1, row)).toThrow("moments must lie within");
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
