import { describe, expect, it } from "vitest";
import { loopAutocorrelation } from "../../src/stages/synthesizer/index.ts";
import { autocorrelationAt } from "../../src/theory/index.ts";

/** R(τ) = (1/π)·∫₀^∞ Φ(iΩ)·cos(Ωτ) dΩ by Simpson's rule over Ω = ω·tan(θ). */
function byQuadrature(
  omega: number,
  damping: number,
  numerator: readonly [number, number, number],
  time: number,
  tau: number,
): number {
  const steps = 400000;
  let sum = 0;
  for (let i = 1; i < steps; i++) {
    const theta = ((Math.PI / 2) * i) / steps;
    const w = omega * Math.tan(theta);
    const z = -w * w;
    const q = (z + omega * omega) ** 2 - 4 * (damping * omega) ** 2 * z;
    const spectrum =
      (numerator[0] + z * (numerator[1] + z * numerator[2])) / ((1 - z * time ** 2) * q);
    const slope = omega * (1 + Math.tan(theta) ** 2);
    sum += (i % 2 === 1 ? 4 : 2) * spectrum * Math.cos(w * tau) * slope;
  }
  return ((Math.PI / 2 / steps / 3) * sum) / Math.PI;
}

describe("loopAutocorrelation", () => {
  // Gardner, Phaselock Techniques (from memory, verified numerically): variance q/(4ζω) for white FM of the
  // oscillator, Q/(4ζω³) for its random walk, N₀·B_L for a white reference, B_L = (ω/2)(ζ + 1/(4ζ)).
  it.each([1e-6, 0.3, 0.5, Math.SQRT1_2, 1, 2.5, 1e4])(
    "has the published variances at ζ = %d",
    (damping) => {
      const omega = 9.4;
      const loop = { omega, damping };
      const variance = (numerator: [number, number, number]) =>
        autocorrelationAt(loopAutocorrelation(loop, { numerator, timeConstant: 0 }), 0);
      expect(variance([0, -3, 0]) / (3 / (4 * damping * omega))).toBeCloseTo(1, 5);
      expect(variance([3, 0, 0]) / (3 / (4 * damping * omega ** 3))).toBeCloseTo(1, 5);
      // One-sided N₀ is half as much on either side.
      const density = 2 / 2;
      const white = variance([density * omega ** 4, -4 * density * (damping * omega) ** 2, 0]);
      expect(white / ((2 * omega * (damping + 1 / (4 * damping))) / 2)).toBeCloseTo(1, 5);
    },
  );

  it.each([
    [0.8, 0.05],
    [0.4, 3],
    [1.7, 0.6],
  ])("agrees with a quadrature of the spectrum, ζ = %d, T = %d s", (damping, time) => {
    const omega = 2.1;
    const numerator = [0, -2 * time, 0] as const;
    const decays = loopAutocorrelation({ omega, damping }, { numerator, timeConstant: time });
    const scale = autocorrelationAt(decays, 0);
    for (const tau of [0, 0.2, 1, 4]) {
      const expected = byQuadrature(omega, damping, numerator, time, tau);
      expect(Math.abs(autocorrelationAt(decays, tau) - expected)).toBeLessThan(1e-6 * scale);
    }
  });

  it("falls back to the relaxation itself where the loop passes everything", () => {
    // |H|² = 1 far below ω: the autocorrelation is v·e^{−τ/T}.
    const omega = 1e4;
    const loop = { omega, damping: 0.8 };
    const time = 5;
    const numerator = [2 * time * omega ** 4, -2 * time * 4 * (0.8 * omega) ** 2, 0] as const;
    const decays = loopAutocorrelation(loop, { numerator, timeConstant: time });
    for (const tau of [1, 5, 20]) {
      expect(autocorrelationAt(decays, tau)).toBeCloseTo(Math.exp(-tau / time), 4);
    }
  });
});
