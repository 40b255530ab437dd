import { describe, expect, it } from "vitest";
import { chargeAt, chargeLeft, toneAt } from "../../../src/lab/index.ts";
import type { ReceiverParameters } from "../../../src/stages/receiver/index.ts";
import { RectifiedTone } from "../../../src/stages/receiver/index.ts";

const receiver = (change: Partial<ReceiverParameters>): ReceiverParameters => ({
  rectifier: "full",
  timeConstant: 0.01,
  leak: true,
  thresholdV: 4,
  noiseV: 0,
  extraStepRateHz: 0,
  ...change,
});

/** v' = (A·r(t) − v)/τ (no leak: without −v) by Runge and Kutta's fourth-order rule: an independent integration. */
function integrated(
  parameters: ReceiverParameters,
  hz: number,
  burst: { phase: number; amplitude: number; charge: number },
  end: number,
): number {
  const { rectifier, timeConstant, leak } = parameters;
  const drive = (t: number) => {
    const sine = Math.sin(2 * Math.PI * (burst.phase + hz * t));
    return burst.amplitude * (rectifier === "full" ? Math.abs(sine) : Math.max(0, sine));
  };
  const slope = (t: number, v: number) => (drive(t) - (leak ? v : 0)) / timeConstant;
  const steps = 20_000;
  const h = end / steps;
  let v = burst.charge;
  for (let i = 0; i < steps; i++) {
    const t = i * h;
    const k1 = slope(t, v);
    const k2 = slope(t + h / 2, v + (h / 2) * k1);
    const k3 = slope(t + h / 2, v + (h / 2) * k2);
    const k4 = slope(t + h, v + h * k3);
    v += (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
  }
  return v;
}

describe("chargeAt", () => {
  it.each([
    ["full", true],
    ["half", true],
    ["full", false],
    ["half", false],
  ] as const)("integrates the circuit's equation (%s wave, leak %s)", (rectifier, leak) => {
    const parameters = receiver({ rectifier, leak });
    const tone = new RectifiedTone(parameters, 1370);
    for (const phase of [0, 0.13, 0.62, 0.97]) {
      const burst = { phase, amplitude: 12, charge: 0.7 };
      for (const time of [0.0003, 0.0021, 0.0175]) {
        expect(chargeAt(tone, burst, time)).toBeCloseTo(
          integrated(parameters, 1370, burst, time),
          5,
        );
      }
    }
  });

  it("begins with the charge that is there", () => {
    const tone = new RectifiedTone(receiver({}), 1370);
    expect(chargeAt(tone, { phase: 0.3, amplitude: 12, charge: 1.25 }, 0)).toBeCloseTo(1.25, 12);
  });
});

describe("toneAt", () => {
  it("is the rectified sine", () => {
    const burst = { phase: 0.2, amplitude: 3, charge: 0 };
    const full = new RectifiedTone(receiver({}), 100);
    const half = new RectifiedTone(receiver({ rectifier: "half" }), 100);
    for (const time of [0, 0.001, 0.0042, 0.0075]) {
      const sine = 3 * Math.sin(2 * Math.PI * (0.2 + 100 * time));
      expect(toneAt(full, burst, time)).toBeCloseTo(Math.abs(sine), 12);
      expect(toneAt(half, burst, time)).toBeCloseTo(Math.max(0, sine), 12);
    }
  });
});

describe("chargeLeft", () => {
  it("is 1/e after one time constant, and nothing without a leak", () => {
    expect(chargeLeft(5, 0.01, 0.01, true)).toBeCloseTo(5 / Math.E, 14);
    expect(chargeLeft(5, 0.01, 0.01, false)).toBe(0);
  });
});
