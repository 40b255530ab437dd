import { describe, expect, it } from "vitest";
import { bestFit, cleanReadings, inferredCycles } from "../../../src/judgement/index.ts";
import { faults } from "./bench.ts";
import { Deviates } from "./generators.ts";

const seeds = Number(process.env.SEEDS ?? 20);
const below = (share: number) => share - 3 * Math.sqrt((share * (1 - share)) / seeds);
/** Least coverage over the run, the bound added; 0.93, but where a step may hide in the noise. */
const least: Record<string, number> = { "one line lost": 0.92, "two runs joined": 0.92 };
/** What has to be told in every record. */
const told: Record<string, string> = {
  "one line doubled": "repeated_reading",
  "readings all alike": "rounding",
  "gate of whole ticks, dead time": "gate_race",
  "gate of whole ticks, back to back": "gate_race",
};

describe("what spoils a record, on a bench that knows nothing of how it is judged", () => {
  for (const [name, make] of Object.entries(faults)) {
    it(name, { timeout: 900_000 }, () => {
      let held = 0;
      for (let seed = 1; seed <= seeds; seed++) {
        const { readings, truth } = make(new Deviates(seed));
        const fit = bestFit(cleanReadings(inferredCycles(readings), 1).without)!;
        const [low, high] = fit.overRun.interval95;
        const bound = fit.systematic.reduce((sum, one) => sum + one.bound, 0);
        if (low - bound <= truth && truth <= high + bound) held++;
        const codes = fit.findings.map(({ code }) => code);
        if (told[name] !== undefined) expect(codes).toContain(told[name]);
        if (name === "clean") expect(codes).not.toContain("phase_step");
      }
      expect(held / seeds).toBeGreaterThanOrEqual(below(least[name] ?? 0.93));
    });
  }
});
