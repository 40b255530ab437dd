import { describe, expect, it } from "vitest";
import { RectifiedTone } from "../../src/stages/receiver/index.ts";
import { receiver } from "./samples.ts";

describe("RectifiedTone", () => {
  it.each([
    ["full", true],
    ["half", true],
    ["full", false],
    ["half", false],
  ] as const)(
    "%s wave, leak %s: response is the integral of r·e^(s/τ)/τ (Simpson's rule)",
    (rectifier, leak) => {
      const tone = new RectifiedTone({ ...receiver, rectifier, leak, timeConstant: 0.001 }, 700);
      const frequency = 700;
      for (const x of [0.2, 0.5, 0.7, 1]) {
        const end = x * tone.period;
        const n = 20000;
        let sum = 0;
        for (let i = 0; i <= n; i++) {
          const s = (end * i) / n;
          const sine = Math.sin(2 * Math.PI * frequency * s);
          const r = rectifier === "full" ? Math.abs(sine) : Math.max(0, sine);
          const weight = i === 0 || i === n ? 1 : i % 2 === 1 ? 4 : 2;
          sum += weight * r * (leak ? Math.exp(s / 0.001) : 1);
        }
        const expected = (sum * end) / n / 3 / 0.001;
        const growth = tone.growth(x);
        expect(growth).toBeCloseTo(leak ? Math.exp(end / 0.001) : 1, 12);
        // The kink of the half wave costs Simpson's rule a little.
        expect(Math.abs(tone.response(x, growth) / expected - 1)).toBeLessThan(1e-7);
      }
    },
  );

  it("settles at the mean of a rectified sine, 2/π and 1/π, where the tone is fast", () => {
    expect(new RectifiedTone(receiver, 1e6).settled).toBeCloseTo(2 / Math.PI, 4);
    expect(new RectifiedTone({ ...receiver, rectifier: "half" }, 1e6).settled).toBeCloseTo(
      1 / Math.PI,
      4,
    );
  });

  it("runs its clock as the variance of an Ornstein-Uhlenbeck process asks: w/E² = 1 − e^(−2t/τ)", () => {
    const tone = new RectifiedTone(receiver, 50);
    const growth = tone.growth(0.6);
    expect(tone.clock(0.6, growth) / growth ** 2).toBeCloseTo(
      1 - Math.exp((-2 * 0.006) / 0.01),
      12,
    );
  });
});
