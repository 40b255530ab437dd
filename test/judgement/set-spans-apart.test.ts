import { describe, expect, it } from "vitest";
import { setSpansApart } from "../../src/judgement/index.ts";
import type { PeriodReadings } from "../../src/readings/index.ts";
import { backToBackRecord } from "./coverage-harness.ts";
import type { MadeNoise } from "./power-law-noise.ts";

/** A record with gaps at 100 and 131, between which it runs slow by `slow`. */
function broken(noise: MadeNoise, slow: number, seed: string): PeriodReadings {
  const readings = backToBackRecord(400, noise, seed).readings as PeriodReadings;
  const period = readings.period.map((p, i) => (i > 100 && i < 131 ? p * (1 + slow) : p));
  period[100] = Number.NaN;
  period[131] = Number.NaN;
  return { ...readings, period };
}

describe("setSpansApart", () => {
  it("finds a span at another rate that hides in the scatter of single readings", () => {
    // 6e-8 against a scatter of 1.4e-7 of single readings, but 30 readings tell to 5e-9.
    const { spans, without } = setSpansApart(broken({ measurement: 1 }, 6e-8, "span"));
    expect(spans.map((s) => s.reading)).toEqual([101]);
    // 300 cycles slow by 6e-8.
    expect(spans[0]!.cycles).toBeCloseTo(1.8e-5, 5);
    expect(without.period.filter((p) => Number.isNaN(p)).length).toBe(32);
  });

  it.each([
    ["white PM", { measurement: 1 }],
    ["white FM", { whiteFm: 1 }],
    ["random-walk FM", { measurement: 1, randomWalkFm: 0.1 }],
  ] as [string, MadeNoise][])("leaves gaps in %s alone, in 20 records", (name, noise) => {
    for (let s = 0; s < 20; s++) {
      expect(setSpansApart(broken(noise, 0, `${name} ${s}`)).spans).toEqual([]);
    }
  });

  it.each([
    // Ageing takes the rate from one end to the other by 1.3 times the scatter of single readings.
    ["a drift", { measurement: 1, drift: 0.003 }, [200, 400]],
    ["a drift and many gaps", { measurement: 1, drift: 0.003 }, [60, 120, 180, 240, 300, 400, 500]],
    // Between stretches apart a random walk grows with their distance, not with their length.
    [
      "random-walk FM and many gaps",
      { measurement: 0.01, randomWalkFm: 0.0025 },
      [60, 120, 180, 240, 300, 360, 420, 480, 540],
    ],
  ] as [string, MadeNoise, number[]][])(
    "takes %s for no other rate, in 20 records",
    (name, noise, gaps) => {
      for (let s = 0; s < 20; s++) {
        const readings = backToBackRecord(600, noise, `${name} ${s}`).readings as PeriodReadings;
        const period = readings.period.map((p, i) => (gaps.includes(i) ? Number.NaN : p));
        expect(setSpansApart({ ...readings, period }).spans).toEqual([]);
      }
    },
  );

  it("finds a span twice as far off in a record that drifts, and none of its neighbours", () => {
    const { spans } = setSpansApart(broken({ measurement: 1, drift: 0.003 }, 1.2e-7, "both"));
    expect(spans.map((s) => s.reading)).toEqual([101]);
  });

  it("needs two gaps, and readings back to back", () => {
    const whole = backToBackRecord(400, { measurement: 1 }, "whole").readings as PeriodReadings;
    expect(setSpansApart(whole).without).toBe(whole);
    const apart = { ...broken({ measurement: 1 }, 1e-3, "apart"), backToBack: false };
    expect(setSpansApart(apart).without).toBe(apart);
  });
});
