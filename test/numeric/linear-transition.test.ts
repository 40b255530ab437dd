import { describe, expect, it } from "vitest";
import { linearTransition } from "../../src/numeric/index.ts";

const relative = (got: number, wanted: number) => Math.abs(got / wanted - 1);

/** (y, x): a relaxation process of time constant T, variance v, and its integral. */
const relaxation = (time: number, variance: number, dt: number) =>
  linearTransition(
    Float64Array.of(-1 / time, 0, 1, 0),
    Float64Array.of((2 * variance) / time, 0, 0, 0),
    2,
    dt,
  );

describe("linearTransition", () => {
  it("gives the covariance of a relaxation process and its integral (formulas of Gillespie, Phys. Rev. E 54, 2084, evaluated apart)", () => {
    const { transition, covariance } = relaxation(2, 1.5, 1.4);
    expect(relative(transition[0]!, 0.4965853038)).toBeLessThan(1e-10);
    expect(relative(covariance[0]!, 1.1301045541)).toBeLessThan(1e-10);
    expect(relative(covariance[1]!, 0.7602790691)).toBeLessThan(1e-10);
    expect(relative(covariance[3]!, 0.8384655073)).toBeLessThan(1e-10);
  });

  it("gives the Gaussian of integrated Brownian motion: q·(dt, dt²/2, dt³/3)", () => {
    const { covariance } = linearTransition(
      Float64Array.of(0, 0, 1, 0),
      Float64Array.of(3, 0, 0, 0),
      2,
      50,
    );
    expect(relative(covariance[0]!, 150)).toBeLessThan(1e-14);
    expect(relative(covariance[1]!, 3750)).toBeLessThan(1e-14);
    expect(relative(covariance[3]!, 125000)).toBeLessThan(1e-14);
  });

  it("turns an oscillation by its angle", () => {
    const { transition } = linearTransition(
      Float64Array.of(0, -1, 1, 0),
      new Float64Array(4),
      2,
      Math.PI / 3,
    );
    expect(transition[0]!).toBeCloseTo(0.5, 14);
    expect(transition[2]!).toBeCloseTo(Math.sqrt(0.75), 14);
  });

  it.each([1e-6, 0.3, 40, 1e7])("is two steps of half the length, dt = %s s", (dt) => {
    const drift = Float64Array.of(-1e3, 0, 0, 1, -7, -1, 0, 30, 0);
    const diffusion = Float64Array.of(5, 0, 0, 0, 0.1, -0.05, 0, -0.05, 2);
    const half = linearTransition(drift, diffusion, 3, dt / 2);
    const whole = linearTransition(drift, diffusion, 3, dt);
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) {
        let q = half.covariance[3 * i + j]!;
        for (let k = 0; k < 3; k++) {
          for (let l = 0; l < 3; l++) {
            q +=
              half.transition[3 * i + k]! *
              half.covariance[3 * k + l]! *
              half.transition[3 * j + l]!;
          }
        }
        const scale = Math.sqrt(whole.covariance[4 * i]! * whole.covariance[4 * j]!);
        expect(Math.abs(whole.covariance[3 * i + j]! - q) / scale).toBeLessThan(1e-12);
      }
    }
  });

  it("keeps the decay of a process far slower than the system beside it: 1 − e^(−1e-8)", () => {
    const drift = Float64Array.of(-1e-8, 0, 0, -1e6);
    const { transition, covariance } = linearTransition(
      drift,
      Float64Array.of(2e-8, 0, 0, 2e6),
      2,
      1,
    );
    expect(Math.abs(transition[0]! - Math.exp(-1e-8))).toBeLessThan(1.2e-16);
    expect(relative(covariance[0]!, -Math.expm1(-2e-8))).toBeLessThan(1e-13);
    expect(relative(covariance[3]!, 1)).toBeLessThan(1e-13);
  });

  it("throws RangeError naming dt", () => {
    expect(() => linearTransition(new Float64Array(1), new Float64Array(1), 1, 0)).toThrow(
      /dt must be > 0 s, got 0/,
    );
  });
});
