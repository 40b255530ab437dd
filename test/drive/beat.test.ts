import { describe, expect, it } from "vitest";
import { beats } from "../../src/stages/drive/index.ts";

describe("beats", () => {
  // Arithmetic: |q·f_tone − p·f_rate|.
  it.each([
    [1000.01, 5, 200, 1, 100, 100],
    [440, 2.9999, 440, 3, 22.7273, 68.1818],
    [1000, 2.4999, 400, 1, 25, 25],
  ])("of %f Hz and %f Hz is that of %i/%i", (toneHz, rateHz, p, q, period, sweep) => {
    const beat = beats(toneHz, rateHz)[0]!;
    expect([beat.p, beat.q]).toEqual([p, q]);
    expect(beat.period).toBeCloseTo(period, 3);
    expect(beat.branchSweep).toBeCloseTo(sweep, 3);
  });

  it("of an exact ratio never ends", () => {
    expect(beats(1000, 2.5)[0]!.period).toBe(Infinity);
  });

  it("does not exist near the golden ratio, the hardest to approximate (Hurwitz 1891), for small q", () => {
    // |q·φ − p| > 1/(√5·q)·(1 − small) > 0.05 for q <= 8.
    expect(beats(1.618033988749895, 1).every((beat) => beat.q > 7)).toBe(true);
  });

  it("refuses a frequency of zero", () => {
    expect(() => beats(0, 1)).toThrow(RangeError);
  });
});
