import { describe, expect, it } from "vitest";
import { relaxationStep } from "../../src/noise/index.ts";
import { linearTransition } from "../../src/numeric/index.ts";

const relative = (got: number, wanted: number) => Math.abs(got / wanted - 1);

describe("relaxationStep", () => {
  it("gives V_yy, V_xy, V_xx of T = 2, v = 1.5, dt = 1.4 (formulas of Gillespie, Phys. Rev. E 54, 2084, evaluated apart)", () => {
    const step = relaxationStep(0.7);
    const yy = 2 * 1.5 * step.spread;
    const weight = 2 * step.weight;
    expect(relative(step.decay, 0.4965853038)).toBeLessThan(1e-10);
    expect(relative(yy, 1.1301045541)).toBeLessThan(1e-10);
    expect(relative(weight * yy, 0.7602790691)).toBeLessThan(1e-10);
    const xx = weight * weight * yy + 2 * 1.5 * 4 * step.residual;
    expect(relative(xx, 0.8384655073)).toBeLessThan(1e-10);
  });

  it.each([1e-6, 1e-3, 0.04])("has the residual of the series at u = %s", (u) => {
    // u − 2·tanh(u/2): Taylor series (DLMF 4.33.3 with u/2).
    const series = u ** 3 / 12 - u ** 5 / 120 + (17 * u ** 7) / 20160 - (31 * u ** 9) / 362880;
    expect(relative(relaxationStep(u).residual, series)).toBeLessThan(4e-15);
  });

  it.each([0.1, 1, 1.999999, 2, 2.000001, 30, 1000])(
    "agrees with the host's tanh at u = %s",
    (u) => {
      const step = relaxationStep(u);
      expect(relative(step.weight, Math.tanh(u / 2))).toBeLessThan(4e-16);
      expect(relative(step.spread, -Math.expm1(-2 * u) / 2)).toBeLessThan(1e-15);
      expect(relative(step.residual, u - 2 * Math.tanh(u / 2))).toBeLessThan(1e-12);
    },
  );

  it.each([1e-5, 0.02, 1.3, 25])("agrees with the general linear transition at u = %s", (u) => {
    const { covariance } = linearTransition(
      Float64Array.of(-1, 0, 1, 0),
      Float64Array.of(1, 0, 0, 0),
      2,
      u,
    );
    const step = relaxationStep(u);
    expect(relative(step.spread, covariance[0]!)).toBeLessThan(1e-12);
    expect(relative(step.weight * step.spread, covariance[1]!)).toBeLessThan(1e-12);
    const xx = step.weight * step.weight * step.spread + step.residual;
    expect(relative(xx, covariance[3]!)).toBeLessThan(1e-12);
  });

  it("is nothing at u = 0", () => {
    expect(relaxationStep(0)).toEqual({ decay: 1, spread: 0, weight: 0, residual: 0 });
  });
});
