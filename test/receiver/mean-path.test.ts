import { describe, expect, it } from "vitest";
import { BurstFrame, MeanPath } from "../../src/stages/receiver/index.ts";
import { receiver, tone } from "./samples.ts";

describe("MeanPath", () => {
  it.each([
    ["full", true, 12, 0.15],
    ["full", true, 7, 0.15],
    ["half", true, 18, 0.05],
    ["full", false, 12, 0.15],
    ["full", true, 12, 0],
  ] as const)(
    "%s wave, leak %s, %f V, noise %f V: jumps only where 8.5 σ of room is left",
    (rectifier, leak, amplitude, noiseV) => {
      const path = new MeanPath({ ...receiver, rectifier, leak, noiseV }, tone);
      const frame = new BurstFrame(path.tone, tone.burst);
      for (const phase of [0, 0.13, 0.37, 0.71, 0.98]) {
        const mean = leak ? 0.2 : 0;
        frame.place(phase);
        const period = path.jump(frame, amplitude, mean);
        expect(period).toBeGreaterThan(0);
        // The circuit equation in small steps (midpoint rule) up to the boundary jumped to.
        const end = (period - frame.start) * path.tone.period;
        const n = 20000;
        const dt = end / n;
        let v: number = mean;
        let highest = 0;
        for (let i = 0; i < n; i++) {
          const sine = Math.sin(2 * Math.PI * (phase + tone.carrierHz * (i + 0.5) * dt));
          const r = amplitude * (rectifier === "full" ? Math.abs(sine) : Math.max(0, sine));
          const half = v + (0.5 * dt * (r - (leak ? v : 0))) / receiver.timeConstant;
          v += (dt * (r - (leak ? half : 0))) / receiver.timeConstant;
          const grown = leak ? 1 : Math.sqrt((2 * (i + 1) * dt) / receiver.timeConstant);
          highest = Math.max(highest, v + 8.5 * noiseV * grown);
        }
        expect(highest).toBeLessThan(receiver.thresholdV + 1e-6);
        expect(path.meanAfterJump).toBeCloseTo(v, 5);
      }
    },
  );

  it("does not jump where the charge left over is close to the threshold", () => {
    const path = new MeanPath(receiver, tone);
    const frame = new BurstFrame(path.tone, tone.burst);
    frame.place(0.2);
    expect(path.jump(frame, 12, 4)).toBe(0);
  });
});

describe("BurstFrame", () => {
  it.each(["full", "half"] as const)(
    "%s wave: has at both ends what the tone's closed form says there",
    (rectifier) => {
      const path = new MeanPath({ ...receiver, rectifier }, tone);
      const frame = new BurstFrame(path.tone, tone.burst);
      const periods = tone.burst / path.tone.period;
      for (const phase of [0, 0.2, 0.49, 0.5, 0.8, 0.999, 7.3]) {
        frame.place(phase);
        const turned = phase * path.tone.periodsPerCycle;
        expect(frame.start).toBeCloseTo(turned - Math.floor(turned), 12);
        expect(frame.whole + frame.end - frame.start).toBeCloseTo(periods, 9);
        const growth = path.tone.growth(frame.end);
        expect(frame.endGrowth).toBeCloseTo(growth, 12);
        expect(frame.endResponse).toBeCloseTo(path.tone.response(frame.end, growth), 10);
      }
    },
  );
});
