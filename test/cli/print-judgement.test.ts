import { describe, expect, it } from "vitest";
import { printJudgement } from "../../src/cli/index.ts";
import { judgeReadings } from "../../src/judgement/index.ts";
import { readLog } from "../../src/log/index.ts";

const within = 1e-6;

describe("a judgement in words", () => {
  it("answers what was asked, also where it has no answer", () => {
    const options = { file: "r.csv", nominalPeriod: 1, gate: 10, backToBack: true };
    const read = readLog("1.000001\n1.0000015\n", options);
    const judgement = judgeReadings(read.readings, { within, ahead: 86400 });
    const told = printJudgement(judgement, read, within);
    expect(told).toContain("\nRead: period in s, 2 readings.\n");
    expect(told).toMatch(
      /\nThese readings do not tell how long it takes to know the rate to ±86.4 ms\/day/,
    );
    expect(told).toContain("\nThese readings do not tell what the dial will be off by then.\n");
  });
});
