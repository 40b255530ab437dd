import { describe, expect, it } from "vitest";
import { judgeReadings } from "../../src/judgement/index.ts";
import { readLog } from "../../src/log/index.ts";

/** NIST SP 1065, section 12.4: n(i+1) = 16807·n(i) mod 2147483647 from 1234567890, divided by the modulus. */
function testSet(): number[] {
  const values: number[] = [];
  for (let n = 1234567890; values.length < 1000; n = (16807 * n) % 2147483647)
    values.push(n / 2147483647);
  return values;
}

/** As printed there in Table 31, at one and at ten times the basic interval. */
const printed = [
  [1, "2.922319e-1", "2.922319e-1", "1.687202e-1", "2.943883e-1"],
  [10, "9.159953e-2", "6.172376e-2", "3.563623e-1", "9.581083e-2"],
] as const;

describe("the 1000-point test set of NIST SP 1065", () => {
  it.each([
    ["rates", "rate\n", (y: number) => String(y)],
    ["rates in ppm", "t (s);rate (ppm)\n", (y: number, i: number) => `${i};${1e6 * y}`],
  ])("as a log of %s gives its stability table to the printed digit", (_, head, line) => {
    const log = `${head}${testSet().map(line).join("\n")}\n`;
    const { readings, notes } = readLog(log, { file: "f", gate: 1, backToBack: true });
    expect(notes).toEqual([]);
    const { stability } = judgeReadings(readings, { taus: "all" });
    for (const [m, ...due] of printed) {
      const row = stability.find(({ tauS }) => tauS === m)!;
      const found = [
        row.allanDeviation,
        row.modifiedAllanDeviation,
        row.timeDeviation,
        row.hadamardDeviation,
      ];
      expect(found.map((v) => v!.toExponential(6))).toEqual(due);
    }
  });
});
