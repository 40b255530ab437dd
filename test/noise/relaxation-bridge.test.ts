import { describe, expect, it } from "vitest";
import { RelaxationBank, RelaxationBridge, type Seen } from "../../src/noise/index.ts";

const bridge = (time: number, diffusion: number, seen: Seen, dt: number, steps: number) =>
  new RelaxationBridge(
    new RelaxationBank(Float64Array.of(time), Float64Array.of(diffusion), Float64Array.of(0)),
    seen,
    dt,
    steps,
  );

describe("RelaxationBridge", () => {
  it("of a random walk is the Brownian bridge: D·s·(T − t)/T (e.g. Karatzas & Shreve 5.6.B, from memory)", () => {
    const walk = bridge(Infinity, 3, "sum", 2, 10);
    for (const i of [1, 4, 9]) {
      expect(walk.share(0, i)).toBeCloseTo(1 - i / 10, 14);
      for (const j of [i, 9]) {
        expect(walk.readingCovariance(i, j)).toBeCloseTo((3 * 2 * i * (20 - 2 * j)) / 20, 12);
      }
    }
  });

  it("of a relaxation process has sinh for mean and covariance (Ornstein-Uhlenbeck bridge)", () => {
    // D·T·sinh(s/T)·sinh((L − t)/T)/sinh(L/T) is Green's function of 1/T² − d²/dt² with zeros at both ends.
    const [time, dt] = [5, 1.5];
    const relaxing = bridge(time, 0.7, "sum", dt, 8);
    const sinh = (i: number) => Math.sinh((i * dt) / time);
    for (const i of [1, 3, 7]) {
      expect(relaxing.share(0, i)).toBeCloseTo(sinh(8 - i) / sinh(8), 14);
      for (const j of [i, 7]) {
        const wanted = (0.7 * time * sinh(i) * sinh(8 - j)) / sinh(8);
        expect(relaxing.readingCovariance(i, j)).toBeCloseTo(wanted, 13);
        expect(relaxing.valueCovariance(0, j, i)).toBeCloseTo(wanted, 13);
      }
    }
  });

  it.each([1e-3, 2, 1e6])(
    "adds up to the integral of the whole, given both ends: T = %s s",
    (time) => {
      const steps = 12;
      const parts = bridge(time, 0.7, "integral", 0.5, steps);
      const whole = new RelaxationBank(
        Float64Array.of(time),
        Float64Array.of(0.7),
        Float64Array.of(0),
      ).step(0.5 * steps);
      let start = 0;
      let end = 0;
      let variance = 0;
      for (let i = 1; i <= steps; i++) {
        start += parts.startWeight(0, i);
        end += parts.endWeight(0, i);
        for (let j = 1; j <= steps; j++) variance += parts.readingCovariance(i, j);
      }
      expect(Math.abs(start / whole.factors[2]! - 1)).toBeLessThan(1e-13);
      expect(Math.abs(end / whole.factors[2]! - 1)).toBeLessThan(1e-13);
      expect(Math.abs(variance / whole.residualVariance - 1)).toBeLessThan(1e-12);
    },
  );
});
