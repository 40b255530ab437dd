import { describe, expect, it } from "vitest";
import { printJudgement } from "../../src/cli/index.ts";
import { judgeReadings } from "../../src/judgement/index.ts";
import { readLog } from "../../src/log/index.ts";

const within = 1e-6;

describe("a judgement in words", () => {
  it("counts what is missing into the span of the record", () => {
    const rows = [1.0625, 1, "", "", 1, 1.0625, ""].map((p, i) => `${10 * i},${p}`).join("\n");
    const options = { file: "r.csv", nominalPeriod: 1, gate: 10, backToBack: true };
    const read = readLog(`t,period_s\n${rows}\n`, options);
    const told = printJudgement(judgeReadings(read.readings, {}), read, null);
    // Seven readings of 10.3125 s on average.
    expect(told.replace(/\s+/g, " ")).toContain(
      "4 readings (3 missing) in 72.2 s, from 0 s to 72.1875 s,",
    );
  });

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
