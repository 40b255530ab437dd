import { describe, expect, it } from "vitest";
import { printJudgement } from "../../src/cli/index.ts";
import { judgeReadings } from "../../src/judgement/index.ts";
import type { PeriodReadings } from "../../src/readings/index.ts";

const readings: PeriodReadings = {
  kind: "period",
  period: Float64Array.of(1.000001, 1.0000015),
  cycles: Float64Array.of(10, 10),
  start: null,
  nominalPeriod: 1,
  backToBack: true,
};
const within = 1e-6;

describe("a judgement in words", () => {
  it("answers what was asked, also where it has no answer", () => {
    const judgement = judgeReadings(readings, { within, ahead: 86400 });
    const read = {
      readings,
      quantity: "period_s",
      fallback: 0,
      notes: [],
      detected: "two",
    } as const;
    const told = printJudgement(judgement, read, within).replace(/\s+/g, " ");
    expect(told).toContain(
      "These readings do not tell how long it takes to know the rate to ±86.4 ms/day (1e-6).",
    );
    expect(told).toContain("These readings do not tell what the dial will be off by then.");
  });
});
