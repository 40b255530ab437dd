import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { linearTicks, logTicks } from "../../src/view/chart/index.ts";

const texts = (ticks: readonly { text: string | null }[]) =>
  ticks.flatMap(({ text }) => (text === null ? [] : [text]));

describe("linearTicks", () => {
  it("stands at round numbers with the decimals they need", () => {
    expect(texts(linearTicks(0, 1, 6))).toEqual(["0.0", "0.2", "0.4", "0.6", "0.8", "1.0"]);
    expect(texts(linearTicks(-1500, 1500, 3))).toEqual(["−1000", "0", "1000"]);
    expect(texts(linearTicks(0.9972695, 0.9972697, 2))).toEqual([
      "0.9972695",
      "0.9972696",
      "0.9972697",
    ]);
  });
});

describe("logTicks", () => {
  it("names decades, plainly where they are within reach", () => {
    expect(texts(logTicks(1, 1000, 400, 40))).toEqual(["1", "10", "100", "1000"]);
    expect(texts(logTicks(5e-10, 2e-7, 400, 40))).toEqual(["10⁻⁹", "10⁻⁸", "10⁻⁷"]);
  });

  it("thins evenly over twelve decades and more", () => {
    expect(texts(logTicks(1e-14, 1e-2, 260, 40))).toEqual([
      "10⁻¹⁴",
      "10⁻¹²",
      "10⁻¹⁰",
      "10⁻⁸",
      "10⁻⁶",
      "10⁻⁴",
      "10⁻²",
    ]);
  });

  it("names twos and fives where there is hardly a decade", () => {
    expect(texts(logTicks(0.8, 12, 400, 40))).toEqual(["1", "2", "5", "10"]);
    expect(texts(logTicks(0.8, 12, 120, 40))).toEqual(["1", "3", "10"]);
  });

  it("is marked like a linear axis where there is less than a decade", () => {
    expect(texts(logTicks(2e-9, 4e-9, 240, 40))).toEqual([
      "2·10⁻⁹",
      "2.5·10⁻⁹",
      "3·10⁻⁹",
      "3.5·10⁻⁹",
      "4·10⁻⁹",
    ]);
  });

  it("keeps numbers apart by the room they need, ascending and inside", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -30, max: 10 }),
        fc.double({ min: 0.3, max: 25, noNaN: true }),
        fc.integer({ min: 100, max: 900 }),
        (first, decades, length) => {
          const [low, high] = [1.3 * 10 ** first, 1.3 * 10 ** (first + decades)];
          const at = (value: number) => (Math.log10(value / low) / decades) * length;
          const ticks = logTicks(low, high, length, 40);
          for (let i = 0; i < ticks.length; i++) {
            expect(at(ticks[i]!.value)).toBeGreaterThanOrEqual(-1e-6);
            expect(at(ticks[i]!.value)).toBeLessThanOrEqual(length + 1e-6);
            if (i > 0) expect(ticks[i]!.value).toBeGreaterThan(ticks[i - 1]!.value);
          }
          const named = ticks.filter(({ text }) => text !== null).map(({ value }) => at(value));
          const gaps = named.slice(1).map((place, i) => place - named[i]!);
          expect(Math.min(Infinity, ...gaps)).toBeGreaterThanOrEqual(40 - 1e-6);
        },
      ),
      { seed: 10 },
    );
  });

  it("refuses ends that have no logarithm", () => {
    expect(() => logTicks(0, 1, 400, 40)).toThrow(RangeError);
    expect(() => logTicks(2, 1, 400, 40)).toThrow(RangeError);
  });
});
