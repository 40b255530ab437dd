import { describe, expect, it } from "vitest";
import { estimateRates } from "../../../src/judgement/index.ts";
import { coverageCases } from "./coverage-cases.ts";

const estimatesOf = (name: string, k: number, records: number) =>
  Array.from({ length: records }, (_, s) => {
    const { readings, truths } = coverageCases[name]!(k, `honest ${name} ${k} ${s}`);
    return { estimates: estimateRates(readings), truths };
  });

describe("an interval from few readings", () => {
  it("says how wide flicker PM would make it, which then holds", () => {
    const records = 300;
    const all = estimatesOf("flicker PM", 20, records);
    for (const method of ["end_to_end", "line_fit"] as const) {
      let said = 0;
      let held = 0;
      for (const { estimates, truths } of all) {
        const { rate, interval95, why } = estimates.find((e) => e.method === method)!;
        const factor = /flicker PM.* would make the interval ([\d.]+) times as wide/.exec(why)?.[1];
        if (factor === undefined) continue;
        said++;
        const half = (Number(factor) * (interval95[1] - interval95[0])) / 2;
        if (Math.abs(rate - truths[method]!.rateOverRun) <= half) held++;
      }
      expect(said).toBeGreaterThan(records / 2);
      // Binomial at 95 %: σ = 1.3 to 1.8 %; 3 of the larger one below.
      expect(held / said).toBeGreaterThan(0.95 - 3 * 0.018);
    }
  });

  it("says nothing of flicker PM where the readings are many, or have dead time", () => {
    const why = (name: string, k: number) =>
      estimatesOf(name, k, 5).flatMap(({ estimates }) => estimates.map((e) => e.why));
    expect(why("white PM", 300).join()).not.toMatch(/flicker PM/);
    expect(why("dead time: white", 20).join()).not.toMatch(/flicker PM/);
  });
});
