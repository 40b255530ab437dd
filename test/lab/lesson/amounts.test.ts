import { describe, expect, it } from "vitest";
import { interval } from "../../../src/lab/index.ts";

const day = 86_400_000;

describe("interval", () => {
  // JCGM 100:2008, 7.2.4 (the expanded form is ± with its probability) and 7.2.6 (two digits, and the same place).
  it.each([
    [-1.28, 0.9, "−1.28 ± 0.90 ms/day (95\u00a0%)"],
    [100.02147, 0.00079, "100.02147 ± 0.00079 ms/day (95\u00a0%)"],
    [-5270.66, 123, "−5270 ± 120 ms/day (95\u00a0%)"],
    [3, 0.0996, "3.00 ± 0.10 ms/day (95\u00a0%)"],
    [0.004, 6.24, "0.0 ± 6.2 ms/day (95\u00a0%)"],
  ])("writes %s and %s", (rate, half, text) => {
    expect(interval(rate / day, half / day)).toBe(text);
  });
});
