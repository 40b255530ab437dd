import { describe, expect, it } from "vitest";
import { estimateRates, howMuchLonger } from "../../../src/judgement/index.ts";
import { readLog } from "../../../src/log/index.ts";
import { normalStream } from "./power-law-noise.ts";

const rate = -4e-6;
const records = 60;

/** Readings of ten cycles back to back, edges with a jitter of 20 µs, as a display of so many decimals shows them. */
function shown(seed: number, count: number, decimals: number, startDigits?: number) {
  const normal = normalStream(`rounding ${seed}`);
  const edge = Array.from({ length: count + 1 }, (_, i) => (10 * i) / (1 + rate) + 2e-5 * normal());
  const lines = edge.slice(1).map((t, i) => {
    const period = ((t - edge[i]!) / 10).toFixed(decimals);
    return startDigits === undefined ? period : `${edge[i]!.toFixed(startDigits)},${period}`;
  });
  const head = startDigits === undefined ? "period_s" : "start_s,period_s";
  const text = [head, ...lines].join("\n");
  return parseReadings(text, { file: "f", nominalPeriod: 1, gate: 10, backToBack: true }).readings;
}

/** Records of which an interval holds the true rate, by method. */
function held(count: number, decimals: number): number[] {
  const holds = [0, 0, 0];
  for (let seed = 0; seed < records; seed++) {
    estimateRates(shown(seed, count, decimals)).forEach(
      ({ applies, interval95: [low, high] }, k) => {
        if (applies && low <= rate && rate <= high) holds[k]!++;
      },
    );
  }
  return holds;
}

describe("readings back to back that are rounded one by one", () => {
  it.each([
    // Steps of a twentieth and of half the jitter of an edge: each reading's rounding is lost in it, their sum is not.
    [400, 7],
    [400, 6],
  ])("%i of them with %i decimals have intervals that hold the rate", (count, decimals) => {
    // 57 of 60 expected; 3 standard deviations of a binomial are 5.
    for (const holds of held(count, decimals)) expect(holds).toBeGreaterThanOrEqual(52);
  });

  it("say that rounding adds up where it does, and that it takes as 1/√T to average", () => {
    const fine = estimateRates(shown(1, 400, 12));
    const coarse = estimateRates(shown(1, 400, 6));
    expect(fine[2]!.why).toBe("every edge counts");
    expect(coarse[2]!.why).toMatch(
      /^every edge counts; what rounding cuts off each reading adds up/,
    );
    // Source: the walk of N errors of q/√12 is q·√(N/12) long: over 400 readings of 1e-6 a rate of 1.4e-8.
    const known = 1e-6 / Math.sqrt(12 * 400);
    expect(
      coarse[1]!.standardUncertainty / Math.hypot(known, fine[1]!.standardUncertainty),
    ).toBeCloseTo(1, 1);
    // Half of what is nearly all rounding takes four times the length: three times as long again.
    const now = 1.96 * coarse[2]!.standardUncertainty;
    const [, , line] = howMuchLonger(shown(1, 400, 6), now / 2);
    expect(line!.further / 4000).toBeGreaterThan(2.5);
  });

  it("are not judged where steps are coarser than their noise", () => {
    const digits = estimateRates({ ...shown(1, 400, 12), rounding: 1e-5 } as never);
    expect(digits.map((e) => e.applies)).toEqual([false, false, false]);
    expect(digits[0]!.why).toMatch(/rounded in steps larger than their scatter/);
  });

  it("add up to what they should where their first edges say so", () => {
    expect(shown(1, 400, 6)).toHaveProperty("rounding");
    expect(shown(1, 400, 6, 9)).toHaveProperty("rounding");
    // Edges stamped to a microsecond, periods that are their differences.
    const micro = Array.from({ length: 401 }, (_, i) => 10_000_040 * i + ((i * i) % 37));
    const lines = micro.slice(1).map((t, i) => `${micro[i]! / 1e6},${(t - micro[i]!) / 1e7}`);
    const text = ["start_s,period_s", ...lines].join("\n");
    const { readings } = parseReadings(text, { file: "f", nominalPeriod: 1, gate: 10 });
    expect(readings).toMatchObject({ backToBack: true });
    expect(readings).not.toHaveProperty("rounding");
  });
});
