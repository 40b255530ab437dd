import { describe, expect, it } from "vitest";
import { RandomStream } from "../../src/numeric/index.ts";
import {
  BurstDetector,
  noiseFreeCrossing,
  RectifiedTone,
} from "../../src/stages/receiver/index.ts";
import { PlainDetector } from "./plain-detector.ts";
import { receiver, tone } from "./samples.ts";

const detector = (changes: object, amplitudeV: number, carrierHz = tone.carrierHz) =>
  new BurstDetector(
    { ...receiver, ...changes, noiseV: 0 },
    { ...tone, amplitudeV, carrierHz },
    new RandomStream("quiet", "receiver"),
  );

describe("noiseFreeCrossing", () => {
  const rectified = new RectifiedTone(receiver, 1370);

  it("finds none where the tone stays below the threshold", () => {
    expect(noiseFreeCrossing(rectified, 4.5, 4.4, 4.3, 0, 1)).toBeNaN();
  });

  it("finds the point where the charge of the closed form is the threshold, coming from below", () => {
    const x = noiseFreeCrossing(rectified, 4.5, 12, 4.42, 0, 1);
    const charge = (at: number) => {
      const growth = rectified.growth(at);
      return (4.42 + 12 * rectified.response(at, growth)) / growth;
    };
    expect(charge(x)).toBeCloseTo(4.5, 12);
    for (let at = 0; at < x; at += 0.01) expect(charge(at)).toBeLessThan(4.5);
  });
});

describe("a detector without noise", () => {
  it.each([
    ["full", true, 0.13],
    ["half", true, 0.77],
    ["full", false, 0.4],
  ] as const)(
    "%s wave, leak %s: the delay that small steps converge to",
    (rectifier, leak, phase) => {
      const quiet = { rectifier, leak, noiseV: 0 };
      const amplitude = 16;
      const delay = detector(quiet, amplitude).detect(phase, amplitude);
      const plain = new PlainDetector({ ...receiver, ...quiet }, tone, "quiet", 20000);
      // A step is 3.6e-8 s; both crossings lie within one.
      expect(Math.abs(delay - plain.detect(phase, amplitude))).toBeLessThan(4e-8);
    },
  );

  it("obeys the charge law of a capacitor at a high carrier: t = −τ·ln(1 − θπ/(2A))", () => {
    const delay = detector({}, 12, 1e6).detect(0.3, 12);
    expect(delay).toBeCloseTo(-0.01 * Math.log(1 - (4.5 * Math.PI) / 24), 6);
  });
});
