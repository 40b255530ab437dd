import { describe, expect, it } from "vitest";
import { RelaxationBank } from "../../src/noise/index.ts";
import { RandomStream } from "../../src/numeric/index.ts";

const make = (time: number, diffusion: number) =>
  RelaxationBank.stationary(
    Float64Array.of(time),
    Float64Array.of(diffusion),
    new RandomStream("bank", "one"),
  );

/** Decay of y and covariance of (y, ∫y) over one step of a bank of one process that starts at 0. */
function joint(bank: RelaxationBank, dt: number) {
  const { factors, residualVariance } = bank.step(dt);
  const [decay, spread, weight] = [factors[0]!, factors[1]!, factors[2]!];
  const yy = spread * spread;
  return {
    decay,
    carried: weight * (1 + decay),
    yy,
    xy: weight * yy,
    xx: weight * weight * yy + residualVariance,
  };
}

describe("RelaxationBank", () => {
  it.each([
    [3, 1e-5],
    [3, 0.1],
    [3, 7],
    [3, 500],
    [Infinity, 7],
    [1e8, 0.2],
  ])("makes in one step what two halves make: T = %s s, dt = %s s", (time, dt) => {
    const bank = make(time, 0.7);
    const whole = joint(bank, dt);
    const half = joint(bank, dt / 2);
    // y₂ = a·y₁ + …, x = x₁ + carried·y₁ + …: covariances add up step by step.
    const { decay: a, carried: b } = half;
    const twice = {
      decay: a * a,
      carried: b + b * a,
      yy: a * a * half.yy + half.yy,
      xy: a * (half.xy + b * half.yy) + half.xy,
      xx: half.xx + 2 * b * half.xy + b * b * half.yy + half.xx,
    };
    for (const key of ["carried", "yy", "xy", "xx"] as const) {
      expect(Math.abs(twice[key] / whole[key] - 1)).toBeLessThan(1e-12);
    }
    expect(twice.decay).toBeCloseTo(whole.decay, 14);
  });

  it("draws the values and means its coefficients say", () => {
    const bank = make(2, 1.5);
    const { factors } = bank.step(1.4);
    const stream = new RandomStream("bank", "draws");
    let square = 0;
    let lagged = 0;
    let furthest = 0;
    const n = 40000;
    for (let i = 0; i < n; i++) {
      const mean = bank.advance(factors, stream);
      const [y0, y1] = [bank.before[0]!, bank.after[0]!];
      furthest = Math.max(furthest, Math.abs(mean - 2 * Math.tanh(0.35) * (y0 + y1)));
      square += (y1 * y1) / n;
      lagged += (y0 * y1) / n;
    }
    expect(furthest).toBeLessThan(1e-13);
    // Stationary variance D·T/2 = 1.5, correlation e^(−0.7) = 0.4966; σ of either about 1 %, 4 σ.
    expect(Math.abs(square / 1.5 - 1)).toBeLessThan(0.04);
    expect(Math.abs(lagged / square - 0.4966)).toBeLessThan(0.02);
    expect(bank.sum()).toBe(bank.after[0]);
  });
});
