import { describe, expect, it } from "vitest";
import { rateInWords } from "../../src/planning/index.ts";

describe("rateInWords", () => {
  // 4e-8 is about 3.5 ms a day and a period of 0.9998 s about 17 s a day: common practice, no published source.
  it.each([
    [4e-8, 1e-9, "+3.456(86) ms/day"],
    [1 / 0.9998 - 1, 1e-8, "+17.28346(86) s/day"],
    [0.123e-3 / 86400, 0.045e-3 / 86400, "+0.123(45) ms/day"],
    [-6.1e-5, 1e-10, "-5.2704000(86) s/day"],
    [0, 2e-12, "0.00(17) µs/day"],
  ])("says %d with %d as %s", (rate, uncertainty, words) => {
    expect(rateInWords(rate, uncertainty)).toBe(words);
  });
});
