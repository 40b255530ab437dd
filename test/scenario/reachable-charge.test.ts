import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { highestCharge, steadyCharge } from "../../src/stages/receiver/index.ts";
import { sampleWith } from "./sample.ts";

type Rectifier = "full" | "half";
const rectified = (sine: number, kind: Rectifier) =>
  kind === "full" ? Math.abs(sine) : Math.max(sine, 0);

/** v' = ((rectified tone) − leak·v)/τ by the classical Runge-Kutta method: greatest and last v. */
function integrate(
  kind: Rectifier,
  hz: number,
  tau: number,
  leak: boolean,
  start: { v: number; phase: number },
  duration: number,
): { greatest: number; least: number; end: number } {
  const steps = Math.max(400, Math.ceil(400 * hz * duration));
  const dt = duration / steps;
  const slope = (t: number, v: number) =>
    (rectified(Math.sin(2 * Math.PI * hz * t + start.phase), kind) - (leak ? v : 0)) / tau;
  let { v } = start;
  let greatest = v;
  let least = v;
  for (let i = 0; i < steps; i++) {
    const t = i * dt;
    const k1 = slope(t, v);
    const k2 = slope(t + dt / 2, v + (k1 * dt) / 2);
    const k3 = slope(t + dt / 2, v + (k2 * dt) / 2);
    const k4 = slope(t + dt, v + k3 * dt);
    v += ((k1 + 2 * k2 + 2 * k3 + k4) * dt) / 6;
    greatest = Math.max(greatest, v);
    least = Math.min(least, v);
  }
  return { greatest, least, end: v };
}

describe("steadyCharge", () => {
  // Mean of a rectified sine: 2/π full wave, 1/π half wave (any textbook of rectifiers).
  it.each([
    ["full", 2 / Math.PI],
    ["half", 1 / Math.PI],
  ] as const)("closes in on the mean of a %s-wave rectified tone", (kind, mean) => {
    const { least, greatest } = steadyCharge(1000, 10, kind);
    expect(least).toBeCloseTo(mean, 4);
    expect(greatest).toBeCloseTo(mean, 4);
    expect(greatest).toBeGreaterThan(least);
  });

  it.each([
    ["full", 0.3],
    ["full", 2],
    ["half", 0.3],
    ["half", 2],
  ] as const)("is what a %s-wave circuit swings between, ωτ = %f", (kind, omegaTau) => {
    const tau = omegaTau / (2 * Math.PI);
    const settled = integrate(kind, 1, tau, true, { v: 0, phase: 0 }, 12);
    const one = integrate(kind, 1, tau, true, { v: settled.end, phase: 0 }, 1);
    const { least, greatest } = steadyCharge(1, tau, kind);
    expect(greatest).toBeCloseTo(one.greatest, 3);
    expect(least).toBeCloseTo(one.least, 3);
  });
});

describe("highestCharge", () => {
  const chain = (...sets: string[]) => {
    const { drive, receiver } = sampleWith(...sets).scenario;
    return { drive: drive!, receiver: receiver! };
  };

  it("is 2A/π and a ripple for bursts much longer than the time constant", () => {
    const { drive, receiver } = chain("receiver.time_constant_s=0.005");
    const bound = highestCharge(drive, receiver, 10, 0.2);
    expect(bound).toBeGreaterThan(20 / Math.PI);
    expect(bound).toBeLessThan((20 / Math.PI) * 1.03);
  });

  it("is a bound over every phase, and a close one: against integration of the circuit", () => {
    const runs = fc.record({
      kind: fc.constantFrom<Rectifier>("full", "half"),
      leak: fc.boolean(),
      hz: fc.double({ min: 60, max: 400, noNaN: true }),
      tau: fc.double({ min: 0.003, max: 0.05, noNaN: true }),
      burst: fc.double({ min: 0.02, max: 0.15, noNaN: true }),
      phase: fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
    });
    fc.assert(
      fc.property(runs, ({ kind, leak, hz, tau, burst, phase }) => {
        const { drive, receiver } = chain();
        const bound = highestCharge(
          { ...drive, carrierHz: hz, burst },
          { ...receiver, rectifier: kind, timeConstant: tau, leak },
          1,
          0.2,
        );
        let v = 0;
        let greatest = 0;
        for (let n = 0; n < (leak ? 6 : 1); n++) {
          const run = integrate(kind, hz, tau, leak, { v, phase }, burst);
          greatest = Math.max(greatest, run.greatest);
          v = run.end * Math.exp(-(0.2 - burst) / tau);
        }
        expect(bound).toBeGreaterThan(greatest * (1 - 1e-4));
        // A burst holds more than a cycle of the tone: phase and ripple are worth less than this.
        expect(bound).toBeLessThan(greatest * 1.8);
      }),
      { seed: 5, numRuns: 40 },
    );
  });
});
