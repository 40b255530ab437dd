import { describe, expect, it } from "vitest";
import { beats } from "../../src/stages/drive/index.ts";

describe("beats", () => {
  // The beat as such is arithmetic; amplitudes against the swing of simulated delays to the next period below.
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

  it.each([
    [1000.01, 5],
    [440, 2.9999],
    [1000, 2.4999],
  ])(
    "has the amplitude that delays to the next tone period show, %f Hz and %f Hz",
    (toneHz, rateHz) => {
      // Delay of burst n to the next upward zero of the tone, projected on the beat over whole beats.
      const beat = beats(toneHz, rateHz)[0]!;
      const bursts = Math.round(40 * beat.period * rateHz);
      let re = 0;
      let im = 0;
      for (let n = 0; n < bursts; n++) {
        const t = n / rateHz;
        const phase = (toneHz * t) % 1;
        const delay = (1 - phase) / toneHz;
        const angle = 2 * Math.PI * beat.frequencyHz * t;
        re += delay * Math.cos(angle);
        im += delay * Math.sin(angle);
      }
      const amplitude = (2 / bursts) * Math.hypot(re, im);
      expect(Math.abs(amplitude / beat.delayAmplitude - 1)).toBeLessThan(0.01);
    },
  );

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
