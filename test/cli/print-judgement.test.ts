import { describe, expect, it } from "vitest";
import { judgeReadings, type Readings } from "../../src/analysis/index.ts";
import { printJudgement } from "../../src/cli/index.ts";

const within = 1e-6;

describe("a judgement in words", () => {
  it("answers what was asked, also where it has no answer", () => {
    const record: Readings = {
      kind: "period",
      period: Float64Array.of(1.000001, 1.0000015),
      cycles: Float64Array.of(10, 10),
      start: null,
      nominalPeriod: 1,
      backToBack: true,
    };
    const judgement = judgeReadings(record, { within, ahead: 86400 });
    const told = printJudgement(judgement, record, null, [], null, within, [1, 2]);
    expect(told).toContain(
      "\nRecord: 2 readings in 20 s, from 0 s to 20 s, back to back, gate 10 s.\n",
    );
    expect(told).toContain(
      "\nThese readings do not tell how long it takes to know the rate to ±86.4 ms/day\n(1e-6).\n",
    );
    expect(told).toContain("\nThese readings do not tell what the dial will be off by then.\n");
  });
});
