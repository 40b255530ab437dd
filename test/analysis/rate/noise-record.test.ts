import { describe, expect, it } from "vitest";
import { noiseRecord } from "../../../src/judgement/index.ts";
import type { TimeErrorReadings } from "../../../src/readings/index.ts";
import { normalStream } from "./power-law-noise.ts";

const curvedOf = (timeError: Float64Array): string => {
  const readings: TimeErrorReadings = { kind: "time_error", timeError, spacing: 300 };
  const edge = Float64Array.from(timeError.keys());
  return noiseRecord(readings, { edge, x: timeError }).edges.curved;
};

describe("noiseRecord", () => {
  it("tells a daily wave in two days of time errors from a wandering rate", () => {
    // A rate that swings by 1e-6 once a day: 13.75 ms of time error each way, under 0.5 ms of jitter.
    const normal = normalStream("daily");
    const timeError = Float64Array.from(
      { length: 577 },
      (_, i) => 0.01375 * Math.sin((2 * Math.PI * i * 300) / 86400) + 5e-4 * normal(),
    );
    expect(curvedOf(timeError)).toMatch(/the residuals of the line cycle/);
  });

  it("does not take a random walk of the rate for a cycle, but for few in a hundred records", () => {
    let cycles = 0;
    for (let seed = 0; seed < 100; seed++) {
      const normal = normalStream(`walk ${seed}`);
      let rate = 0;
      let x = 0;
      const timeError = new Float64Array(300);
      for (let i = 0; i < timeError.length; i++) {
        rate += 1e-8 * normal();
        x += 300 * rate;
        timeError[i] = x + 1e-6 * normal();
      }
      if (/cycle/.test(curvedOf(timeError))) cycles++;
    }
    expect(cycles).toBeLessThan(12);
  });
});
