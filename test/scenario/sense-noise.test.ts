import { describe, expect, it } from "vitest";
import { complaintsAbout, sample, sampleWith } from "./sample.ts";

const noise = (path: string, levels: string) => `${path}.noise={${levels}}`;

// White FM: σ(τ) = σ(1 s)/√τ; random-walk FM: σ(τ) = σ(1 s)·√τ; white PM: σ(τ) = √3·x/τ
// (IEEE Std 1139-2008, Annex B). The sample has 5 bursts a second and 20000 s: √20000 = 141.
describe("senseOfNoise", () => {
  it.each([
    [
      noise("reference", "white_fm_adev_1s: 0.04"),
      noise("reference", "white_fm_adev_1s: 0.05"),
      "0.112 at 0.2 s",
    ],
    [
      noise("reference", "random_walk_fm_adev_1s: 7e-4"),
      noise("reference", "random_walk_fm_adev_1s: 8e-4"),
      "0.113 at 20000 s",
    ],
    [
      noise("synthesizer", "white_pm_rms_s: 0.011"),
      noise("synthesizer", "white_pm_rms_s: 0.012"),
      "0.104 at 0.2 s",
    ],
    [
      noise("receiver.fallback", "flicker_fm_adev: 0.09"),
      noise("receiver.fallback", "flicker_fm_adev: 0.11"),
      "0.11 at 1 s",
    ],
    [
      noise("counter.timebase", "white_fm_adev_1s: 0.7"),
      noise("counter.timebase", "white_fm_adev_1s: 0.8"),
      "0.113 at 50 s",
    ],
  ])("takes %s and refuses %s", (good, bad, found) => {
    expect(sampleWith(good).scenario.title).toBe("sample");
    const [complaint] = complaintsAbout(sample, [bad]);
    expect(complaint!.path).toBe(bad.slice(0, bad.indexOf("=")));
    expect(complaint!.message).toContain(`an Allan deviation of ${found}`);
  });

  it("knows that a loop holds the noise of its own oscillator within its time constant", () => {
    expect(sampleWith("synthesizer.noise={random_walk_fm_adev_1s: 0.01}").scenario.title).toBe(
      "sample",
    );
  });
});
