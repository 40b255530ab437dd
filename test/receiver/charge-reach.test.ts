import { describe, expect, it } from "vitest";
import { chargeReach } from "../../src/stages/receiver/index.ts";
import { receiver, tone } from "./samples.ts";

describe("chargeReach", () => {
  it("is the mean of a rectified sine, 2/π, for a fast tone and a long burst", () => {
    expect(chargeReach(receiver, { ...tone, carrierHz: 1e5, burst: 0.3 }, 0.2)).toBeCloseTo(
      2 / Math.PI,
      3,
    );
  });

  it.each([
    ["full", true, 0.06, 0.1],
    ["half", true, 0.02, 0.6],
    ["full", false, 0.01, 0.3],
    ["half", false, 0.0003, 0.9],
  ] as const)(
    "%s wave, leak %s, burst %f s: the highest charge in small steps of the circuit",
    (rectifier, leak, burst, phase) => {
      const n = 200000;
      const dt = burst / n;
      let v = 0;
      let highest = 0;
      for (let i = 0; i < n; i++) {
        const sine = Math.sin(2 * Math.PI * (phase + tone.carrierHz * (i + 0.5) * dt));
        const r = rectifier === "full" ? Math.abs(sine) : Math.max(0, sine);
        // Midpoint rule.
        const half = v + (0.5 * dt * (r - (leak ? v : 0))) / receiver.timeConstant;
        v += (dt * (r - (leak ? half : 0))) / receiver.timeConstant;
        highest = Math.max(highest, v);
      }
      const reach = chargeReach({ ...receiver, rectifier, leak }, { ...tone, burst }, phase);
      expect(Math.abs(reach / highest - 1)).toBeLessThan(2e-4);
    },
  );
});
