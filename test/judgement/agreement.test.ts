import { median } from "d3-array";
import { describe, expect, it } from "vitest";
import { judgeReadings } from "../../src/judgement/index.ts";
import { normalStream } from "./power-law-noise.ts";

/** Back-to-back readings of ten seconds whose edges scatter by so much, of a clock with a rate. */
function readings(seed: string, edge: number, rate: number, wandering = 0) {
  const normal = normalStream(seed);
  let phase = 0;
  const x = Float64Array.from({ length: 201 }, () => {
    phase += wandering * normal() * Math.sqrt(10);
    return phase + edge * normal();
  });
  return {
    kind: "period" as const,
    period: Float64Array.from({ length: 200 }, (_, i) => 1 / (1 + rate) - (x[i + 1]! - x[i]!) / 10),
    cycles: new Float64Array(200).fill(10),
    start: null,
    nominalPeriod: 1,
    backToBack: true,
  };
}
const expected = {
  levels: { whitePm: 1e-3, whiteFm: 0, flickerFm: 0, randomWalkFm: 0 },
  rate: 1e-6,
};
const agreed = (seed: string, edge: number, rate: number, wandering = 0) =>
  judgeReadings(readings(seed, edge, rate, wandering), { expected }).agreement!;

describe("agreement of a record with what is expected of it", () => {
  const seeds = Array.from({ length: 30 }, (_, i) => `as-expected-${i}`);

  it("is there where the record is as expected", () => {
    // Said wrongly of one record in a hundred: of thirty, three or more once in 300 000 times.
    const wrong = seeds.map((seed) => agreed(seed, 1e-3, 1e-6)).filter((a) => !(a.noise && a.rate));
    expect(wrong.length).toBeLessThan(3);
  });

  it.each([
    ["edges that scatter twice as much", 2e-3, 1e-6, 0, true],
    ["edges that scatter half as much", 5e-4, 1e-6, 0, true],
    ["white FM that was not expected", 1e-3, 1e-6, 1e-3, true],
    ["another rate", 1e-3, 1.1e-5, 0, false],
  ])("is not there with %s", (_, edge, rate, wandering, inNoise) => {
    for (const seed of seeds.slice(0, 5)) {
      const { noise, rate: inRate } = agreed(seed, edge, rate, wandering);
      expect(inNoise ? noise : inRate).toBe(false);
    }
  });

  it("narrows the steady rate to what the edges allow, and still holds it", () => {
    let held = 0;
    const halves: number[] = [];
    for (const seed of seeds) {
      const { headline } = judgeReadings(readings(seed, 1e-3, 1e-6), { expected });
      const [low, high] = headline!.steady.interval95;
      if (low <= 1e-6 && 1e-6 <= high) held++;
      halves.push((high - low) / 2);
    }
    // A line through white PM: u = √12·σ/(√K·T); the usual half-width within a third of 1.96 u.
    const ideal = (1.96 * Math.sqrt(12) * 1e-3) / (Math.sqrt(200) * 2000);
    expect(median(halves)!).toBeLessThan(1.33 * ideal);
    // 95 % of thirty, less three standard errors.
    expect(held).toBeGreaterThanOrEqual(25);
  });
});
