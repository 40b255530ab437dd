import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Instant } from "../../src/numeric/index.ts";
import { asInteger, asNumber, one } from "./exact-rational.ts";

/** The moment as an exact number of units of 2⁻¹⁰⁷⁴ s. */
const exact = (t: Instant) => asInteger(t.whole) + asInteger(t.fraction);
const isNormal = (t: Instant) => Number.isInteger(t.whole) && t.fraction >= 0 && t.fraction < 1;
/** Spacing of the doubles just below 1: what two parts resolve at any length of run. */
const resolution = 2 ** -53;
const seeded = (seed: number) => ({ seed, numRuns: 2000 });
const cycles = fc.oneof(
  fc.integer({ min: 0, max: 1e9 }),
  fc.maxSafeInteger().map((n) => Math.abs(n)),
);
const seconds = fc.double({ min: -1e9, max: 1e9, noNaN: true });

describe("Instant.setCycle", () => {
  it("is n·T to 2⁻⁵³ s however long the run, against exact rational arithmetic", () => {
    const period = fc.oneof(
      fc.double({ min: 1e-10, max: 1e4, noNaN: true }),
      fc.constantFrom(0.1, 1e-7, 1 / 3, 1 / 1.00273790935),
    );
    fc.assert(
      fc.property(cycles, period, (n, T) => {
        fc.pre(n * T < 2 ** 52);
        const t = new Instant().setCycle(n, T);
        expect(isNormal(t)).toBe(true);
        const error = asNumber(exact(t) - (asInteger(n) * asInteger(T)) / one);
        expect(Math.abs(error)).toBeLessThanOrEqual(resolution);
      }),
      seeded(6),
    );
  });

  it("tells apart edges a femtosecond apart after a thousand years", () => {
    const n = 3.15576e10 * 5;
    const early = new Instant().setCycle(n, 0.2).add(-1e-15);
    expect(new Instant().setCycle(n, 0.2).minus(early)).toBeCloseTo(1e-15, 16);
  });

  it("refuses numbers of cycles that are not whole and periods that are not positive", () => {
    const t = new Instant();
    expect(() => t.setCycle(0.5, 1)).toThrow(RangeError);
    expect(() => t.setCycle(2 ** 54, 1e-9)).toThrow(RangeError);
    expect(() => t.setCycle(1, 0)).toThrow(RangeError);
    expect(() => t.setCycle(2 ** 53, 2)).toThrow(RangeError);
  });
});

describe("Instant.set and add", () => {
  it("are sums to 2⁻⁵³ s, against exact rational arithmetic", () => {
    fc.assert(
      fc.property(seconds, seconds, seconds, (whole, fraction, dt) => {
        const t = new Instant().set(whole, fraction);
        expect(isNormal(t)).toBe(true);
        const setError = asNumber(exact(t) - asInteger(whole) - asInteger(fraction));
        expect(Math.abs(setError)).toBeLessThanOrEqual(2 * resolution);
        const before = exact(t);
        t.add(dt);
        expect(isNormal(t)).toBe(true);
        expect(Math.abs(asNumber(exact(t) - before - asInteger(dt)))).toBeLessThanOrEqual(
          2 * resolution,
        );
      }),
      seeded(7),
    );
  });

  it("carry at the edges of a second", () => {
    const t = new Instant();
    expect([t.set(5, 1).whole, t.fraction]).toEqual([6, 0]);
    expect([t.set(5, -0.25).whole, t.fraction]).toEqual([4, 0.75]);
    expect([t.set(2.5, 2.5).whole, t.fraction]).toEqual([5, 0]);
    expect(isNormal(t.set(0, 0).add(-1e-30))).toBe(true);
    expect(isNormal(t.set(3, 0.9999999999999999).add(1e-17))).toBe(true);
  });

  it("refuse what is not finite or too far away", () => {
    const t = new Instant().set(1, 0.5);
    expect(() => t.set(NaN, 0)).toThrow(RangeError);
    expect(() => t.add(Infinity)).toThrow(RangeError);
    expect(() => t.set(2 ** 54, 0)).toThrow(RangeError);
  });
});

describe("Instant.minus and the order", () => {
  it("give the interval to its own rounding and 2⁻⁵³ s, and its sign exactly", () => {
    const part = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true });
    const whole = fc.integer({ min: -3, max: 3 });
    fc.assert(
      fc.property(cycles, whole, part, part, (n, k, f, g) => {
        fc.pre(n < 2 ** 52);
        const a = new Instant().set(n, f);
        const b = new Instant().set(n + k, g);
        const interval = exact(a) - exact(b);
        expect(Math.abs(asNumber(asInteger(a.minus(b)) - interval))).toBeLessThanOrEqual(
          4 * resolution,
        );
        expect(a.compare(b)).toBe(interval < 0n ? -1 : interval > 0n ? 1 : 0);
        expect(a.isBefore(b)).toBe(interval < 0n);
        expect(new Instant().copy(a).compare(a)).toBe(0);
      }),
      seeded(8),
    );
  });
});
