import { describe, expect, it } from "vitest";
import { judgeReadings } from "../../src/judgement/index.ts";
import { printJudgement } from "../../src/cli/index.ts";

const within = 1e-6;

describe("a judgement in words", () => {
  it("answers what was asked, also where it has no answer", () => {
    const judgement = judgeReadings(
      {
        kind: "period",
        period: Float64Array.of(1.000001, 1.0000015),
        cycles: Float64Array.of(10, 10),
        start: null,
        nominalPeriod: 1,
        backToBack: true,
      },
      { within, ahead: 86400 },
    );
    const told = printJudgement(judgement, null, [], null, within, [1, 2]);
    expect(told).toContain(
      "\nHow much longer it takes to know the rate to ±86.4 ms/day (1e-6) these readings\ncannot tell.\n",
    );
    expect(told).toContain("\nWhat the dial will be off by then these readings cannot tell.\n");
  });
});
