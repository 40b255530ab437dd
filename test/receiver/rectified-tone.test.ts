import { describe, expect, it } from "vitest";
import { RectifiedTone } from "../../src/stages/receiver/index.ts";
import { receiver, tone as sent } from "./samples.ts";

describe("RectifiedTone", () => {
  it.each(["full", "half"] as const)(
    "%s wave: response is the integral of r·e^(s/τ)/τ (Simpson's rule)",
    (rectifier) => {
      const tone = new RectifiedTone(
        { ...receiver, rectifier, timeConstant: 0.001 },
        { ...sent, carrierHz: 700 },
      );
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
          sum += weight * r * Math.exp(s / 0.001);
        }
        const expected = (sum * end) / n / 3 / 0.001;
        const growth = tone.growth(x);
        expect(growth).toBeCloseTo(Math.exp(end / 0.001), 12);
        // The kink of the half wave costs Simpson's rule a little.
        expect(Math.abs(tone.response(x, growth) / expected - 1)).toBeLessThan(1e-7);
      }
    },
  );

  it("settles at the mean of a rectified sine, 2/π and 1/π, where the tone is fast", () => {
    const fast = { ...sent, carrierHz: 1e6 };
    expect(new RectifiedTone(receiver, fast).settled).toBeCloseTo(2 / Math.PI, 4);
    expect(new RectifiedTone({ ...receiver, rectifier: "half" }, fast).settled).toBeCloseTo(
      1 / Math.PI,
      4,
    );
  });

  it.each([
    ["full", 0.3],
    ["full", 20],
    ["half", 0.3],
    ["half", 20],
  ] as const)(
    "%s wave, ωτ = %f: the steady part of an even and of a growing level obeys the circuit equation",
    (rectifier, omegaTau) => {
      const timeConstant = omegaTau / (2 * Math.PI * 1370);
      const tone = new RectifiedTone({ ...receiver, rectifier, timeConstant }, sent);
      // L = 1 + s·t/τ: τ·v' = L·r − v, by central differences; across a period it is the same but for the level's growth.
      for (const s of [0, 0.7, -2]) {
        const at = (x: number) => tone.steady(x, 1 + s * x * tone.ratio, s);
        for (const x of [0.11, 0.37, 0.62, 0.93]) {
          const h = 1e-5;
          const slope = (at(x + h) - at(x - h)) / (2 * h * tone.ratio);
          const level = 1 + s * x * tone.ratio;
          expect(Math.abs(slope - (level * tone.drive(x) - at(x)))).toBeLessThan(1e-7);
        }
        expect(tone.steady(1, 1, s)).toBeCloseTo(tone.steady(0, 1, s), 12);
      }
    },
  );
});
