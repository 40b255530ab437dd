import { describe, expect, it } from "vitest";
import { burstEnvelope } from "../../src/stages/drive/index.ts";
import {
  BurstCharge,
  chargeLeft,
  highestCharge,
  timeToForget,
} from "../../src/stages/receiver/index.ts";
import { receiver, tone } from "./samples.ts";

/** The circuit equation in small steps (midpoint rule), from no charge: charge at the end, and the highest. */
function smallSteps(
  set: { rectifier: "full" | "half"; leak: boolean },
  [burst, rise]: readonly [number, number],
  phase: number,
) {
  const n = 200000;
  const dt = (burst + rise) / n;
  const { timeConstant } = receiver;
  let v = 0;
  let highest = 0;
  for (let i = 0; i < n; i++) {
    const t = (i + 0.5) * dt;
    const level = rise === 0 ? 1 : Math.min(1, t / rise, (burst + rise - t) / rise);
    const sine = Math.sin(2 * Math.PI * (phase + tone.carrierHz * t));
    const r = level * (set.rectifier === "full" ? Math.abs(sine) : Math.max(0, sine));
    const half = v + (0.5 * dt * (r - (set.leak ? v : 0))) / timeConstant;
    v += (dt * (r - (set.leak ? half : 0))) / timeConstant;
    highest = Math.max(highest, v);
  }
  return { end: v, highest };
}

const cases = [
  ["full", true, 0.06, 0, 0.1],
  ["half", true, 0.02, 0, 0.6],
  ["full", false, 0.01, 0, 0.3],
  ["half", false, 0.0003, 0, 0.9],
  ["full", true, 0.02, 0.007, 0.3],
  ["half", true, 0.02, 0.02, 0.8],
  ["full", false, 0.02, 0.003, 0.4],
  ["half", false, 0.005, 0.004, 0.2],
] as const;

describe("BurstCharge", () => {
  it.each(cases)(
    "%s wave, leak %s, burst %f s, rise %f s: small steps of the circuit",
    (rectifier, leak, burst, rise, phase) => {
      const set = { ...receiver, rectifier, leak };
      const charge = new BurstCharge(set, { ...tone, envelope: burstEnvelope(burst, rise) });
      charge.place(phase);
      const { end } = smallSteps(set, [burst, rise], phase);
      // A leak that is as good as none costs a part in 60 000.
      expect(Math.abs(charge.atEnd / end - 1)).toBeLessThan(leak ? 2e-7 : 2e-5);
    },
  );
});

describe("highestCharge", () => {
  it("is the mean of a rectified sine, 2/π and 1/π, for a fast tone after many time constants", () => {
    const fast = { ...tone, carrierHz: 1e6, envelope: burstEnvelope(0.2, 0), amplitudeV: 1 };
    const once = Number.POSITIVE_INFINITY;
    expect(highestCharge(receiver, fast, once)).toBeCloseTo(2 / Math.PI, 3);
    expect(highestCharge({ ...receiver, rectifier: "half" }, fast, once)).toBeCloseTo(
      1 / Math.PI,
      3,
    );
  });

  it.each(cases)(
    "%s wave, leak %s, burst %f s, rise %f s: as high as any phase in small steps",
    (rectifier, leak, burst, rise) => {
      const set = { ...receiver, rectifier, leak };
      let highest = 0;
      for (let k = 0; k < 32; k++) {
        highest = Math.max(highest, smallSteps(set, [burst, rise], k / 32).highest);
      }
      const sent = { ...tone, envelope: burstEnvelope(burst, rise), amplitudeV: 1 };
      const found = highestCharge(set, sent, Number.POSITIVE_INFINITY);
      expect(Math.abs(found / highest - 1)).toBeLessThan(2e-3);
    },
    30_000,
  );
});

describe("chargeLeft", () => {
  it("adds up what each burst before left: a sum over bursts carried on in small steps", () => {
    const set = { ...receiver, timeConstant: 0.05 };
    const period = 1 / 6;
    const { mean, variance } = chargeLeft(set, tone, period)(0.3);
    const burst = new BurstCharge(set, tone);
    let v = 0;
    let spread = 0;
    for (let k = 60; k >= 1; k--) {
      burst.place(0.3 - k * tone.carrierHz * period + 1e6);
      const decay = Math.exp(-period / 0.05);
      const last = burst.atEnd * Math.exp(-(period - 0.06) / 0.05);
      v = v * decay + last;
      spread = spread * decay ** 2 + (last * tone.amplitudeNoise) ** 2;
    }
    expect(Math.abs(mean / v - 1)).toBeLessThan(1e-4);
    expect(Math.abs(variance / spread - 1)).toBeLessThan(1e-3);
  });

  it("is less, and less sure, where bursts are dropped: mean p·x, variance p·(1 − p)·x²", () => {
    const dropping = { ...tone, dropProbability: 0.25, amplitudeNoise: 0 };
    const whole = chargeLeft(receiver, { ...dropping, dropProbability: 0 }, 0.07)(0);
    const { mean, variance } = chargeLeft(receiver, dropping, 0.07)(0);
    expect(mean / whole.mean).toBeCloseTo(0.75, 12);
    // The last burst alone counts here, but for a part in e⁻¹⁴.
    expect(variance / whole.mean ** 2).toBeCloseTo(0.75 * 0.25, 2);
  });
});

describe("timeToForget", () => {
  it("is what an exponential decay to a thousandth of the noise takes", () => {
    // The circuit's law: 12 V fall to 0.15 mV in τ·ln 80000.
    const t = timeToForget({ ...receiver, timeConstant: 0.01, noiseV: 0.15 }, 12);
    expect(12 * Math.exp(-t / 0.01)).toBeCloseTo(0.15e-3, 12);
  });

  it("leaves a two thousandth of the noise before, however weak the tone", () => {
    const t = timeToForget({ ...receiver, timeConstant: 1, noiseV: 1 }, 0.01);
    expect(Math.exp(-t)).toBeCloseTo(0.5e-3, 12);
  });

  it("is 0 without a leak, and no longer than without noise", () => {
    expect(timeToForget({ ...receiver, leak: false }, 12)).toBe(0);
    const quiet = timeToForget({ ...receiver, noiseV: 0 }, 12);
    expect(quiet).toBeGreaterThan(timeToForget({ ...receiver, noiseV: 0.15 }, 12));
  });
});
