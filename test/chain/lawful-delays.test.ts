import { describe, expect, it } from "vitest";
import { kolmogorovSmirnov, meanAndVariance } from "../receiver/samples.ts";
import { demo, runChain } from "./run-chain.ts";

/** Delays of all bursts of a run of the observatory. */
function delaysOf(bursts: number, sets: readonly string[] = []): number[] {
  const scenario = demo("observatory", [`length_s=${bursts / 5}`, ...sets]);
  return runChain(scenario, { recording: "bursts", takes: ["bursts"] }).bursts.map((b) => b.delay);
}

describe("delays by their law, from the 5000th burst on", () => {
  const all = delaysOf(60_000);

  it("are distributed as those detected before", () => {
    const [before, after] = [all.slice(0, 4999), all.slice(4999)];
    // Kolmogorov: 2.2 is exceeded once in 8000 cases.
    expect(kolmogorovSmirnov(before, after)).toBeLessThan(2.2);
    const a = meanAndVariance(before);
    const b = meanAndVariance(after);
    // 4 σ.
    expect(Math.abs(a.mean - b.mean)).toBeLessThan(
      4 * Math.sqrt(a.variance / before.length + b.variance / after.length),
    );
  });

  it("begin at the same burst whatever the length of the run", () => {
    const shorter = delaysOf(7000);
    expect(shorter.length).toBeGreaterThan(6000);
    expect(shorter).toEqual(all.slice(0, shorter.length));
  });

  it("are the same up to what happens later, in whatever rows the bursts are computed", () => {
    for (const at of [4400, 4413.3, 4450]) {
      const slipped = delaysOf(24_000, [`disturbances=[{ at_s: ${at}, kind: missed_step }]`]);
      const before = Math.floor(5.01 * at) - 5;
      expect(slipped.slice(0, before)).toEqual(all.slice(0, before));
    }
    const gated = delaysOf(24_000, ["counter.gate_s=7"]);
    expect(gated).toEqual(all.slice(0, gated.length));
  });

  it("leave bursts after a change of the tone to the detector, which then differ", () => {
    // Louder bursts are detected sooner: mean rectified sine, 7.64 V against 9.17 V to a threshold of 4.5 V.
    const louder = delaysOf(30_000, [
      "disturbances=[{ at_s: 4600, kind: amplitude, factor: 1.2, for_s: 600 }]",
    ]);
    const within = (from: number, to: number) =>
      meanAndVariance(louder.slice(Math.round(from * 5.01), Math.round(to * 5.01))).mean;
    const delay = (settled: number) => -0.01 * Math.log(1 - 4.5 / settled);
    const expected = delay((2 * 12 * 1.2) / Math.PI) - delay((2 * 12) / Math.PI);
    const measured = within(4610, 5190) - within(5210, 5900);
    // A tenth for the noise, which brings both forward; 2900 bursts of 0.56 ms leave 15 µs of 2 ms.
    expect(measured / expected).toBeGreaterThan(0.9);
    expect(measured / expected).toBeLessThan(1.1);
  });
});
