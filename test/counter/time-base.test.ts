import { describe, expect, it } from "vitest";
import { Edge } from "../../src/kernel/index.ts";
import { Instant, RandomStream } from "../../src/numeric/index.ts";
import { ownTimeBase, quantize, referenceTimeBase } from "../../src/stages/counter/index.ts";

const silent = {
  whitePmRms: 0,
  h1: 0,
  h0: 0,
  hMinus1: 0,
  hMinus2: 0,
  bandwidthHz: 0.5,
  flickerLongest: 1e8,
};

describe("the time base of a counter", () => {
  it("fast by y reads t·(1 + y), to picoseconds after a million days", () => {
    const parameters = { fractionalOffset: 2 ** -28, uncertainty: 0, noise: silent };
    const base = ownTimeBase(parameters, 1, new RandomStream("t", "timebase"));
    const edge = new Edge();
    edge.instant.set(2 ** 36, 0.5);
    const stamp = new Instant();
    base.stamp(edge, 0, stamp);
    // Powers of two: 2³⁶ s fast by 2⁻²⁸ is 2⁸ s, and half a second 2⁻²⁹ s.
    expect(stamp.whole).toBe(2 ** 36 + 2 ** 8);
    expect(stamp.fraction).toBe(0.5 + 2 ** -29);
  });

  it("that is the reference reads the time of the reference", () => {
    const base = referenceTimeBase(() => 0);
    const edge = new Edge();
    edge.instant.set(10, 0.25);
    edge.referenceError = -0.5;
    const stamp = new Instant();
    base.stamp(edge, 0, stamp);
    expect(stamp.toSeconds()).toBe(9.75);
  });
});

describe("quantize", () => {
  it("cuts down, and leaves a perfect stamp alone", () => {
    const at = new Instant().set(7, 0.123456);
    expect(quantize(at, 0)).toBeUndefined();
    expect(at.fraction).toBe(0.123456);
    quantize(at, 1e-3);
    expect(at.whole).toBe(7);
    expect(at.fraction).toBe(0.123);
  });

  it("cuts to whole multiples of more than a second too", () => {
    for (const [resolution, seconds] of [
      [2, 6],
      [2.5, 7.5],
      [60, 0],
    ] as const) {
      const at = new Instant().set(7, 0.9);
      quantize(at, resolution);
      expect(at.toSeconds()).toBe(seconds);
    }
  });

  it("gives the decimal that the counts stand for", () => {
    for (const [resolution, count, decimal] of [
      [1e-7, 1994479, 0.1994479],
      [4e-9, 49861973, 0.199447892],
      [1e-12, 199447892345, 0.199447892345],
    ] as const) {
      const at = new Instant().set(3, (count + 0.5) * resolution);
      quantize(at, resolution);
      expect(at.fraction).toBe(decimal);
    }
    // 0.3/0.1 and 0.57/0.01 are rounded to just below 3 and 57: what is cut already stays as it is.
    for (const [resolution, decimal] of [
      [0.1, 0.3],
      [0.01, 0.57],
      [1e-9, 0.199447893],
    ] as const) {
      const at = new Instant().set(3, decimal);
      quantize(at, resolution);
      expect(at.fraction).toBe(decimal);
    }
    // A resolution that does not divide the second: multiples as they come.
    const at = new Instant().set(3, 0.1);
    quantize(at, 3e-7);
    expect(at.fraction).toBeCloseTo(0.0999999, 12);
  });
});
