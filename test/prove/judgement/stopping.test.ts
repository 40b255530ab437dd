import { describe, expect, it } from "vitest";
import { RunningJudgement } from "../../../src/judgement/index.ts";
import type { Readings } from "../../../src/readings/index.ts";
import { Deviates, flickerMaker, makeRecord, type Recipe } from "../noise-model/generators.ts";

/** Seeds a case; 2000 for the figures that count. */
const seeds = Number(process.env.SEEDS ?? 8);
const longest = 400;
const tick = 1e-4;

/** Readings of ten ticks, back to back, whose last edges are off by the stamps' errors. */
function readingsOf(stamps: Float64Array, count: number): Readings {
  const period = Float64Array.from(
    { length: count },
    (_, i) => 1 - (tick * (stamps[i + 1]! - stamps[i]!)) / 10,
  );
  const cycles = new Float64Array(count).fill(10);
  return { kind: "period", period, cycles, start: null, nominalPeriod: 1, backToBack: true };
}

interface Case {
  readonly name: string;
  readonly recipe: Recipe;
  readonly of: "run" | "long";
  readonly within: number;
}

/** Noise as shares of a reading's; a goal that some tens to a few hundred readings meet. */
const cases: readonly Case[] = [
  {
    name: "white PM, over the run",
    recipe: { pm: 1, wfm: 0, ffm: 0, rw: 0 },
    of: "run",
    within: 9e-8,
  },
  { name: "white PM, steady", recipe: { pm: 1, wfm: 0, ffm: 0, rw: 0 }, of: "long", within: 7e-7 },
  {
    name: "white PM and FM, over the run",
    recipe: { pm: 1, wfm: 0.02, ffm: 0, rw: 0 },
    of: "run",
    within: 1.8e-7,
  },
];

describe("a watch that ends when the rate is known", () => {
  it.each(cases)("has an interval that holds the truth: $name", ({ recipe, of, within }) => {
    const flicker = recipe.ffm > 0 ? flickerMaker(longest) : undefined;
    let [held, ended, foretold, asked] = [0, 0, 0, 0];
    for (let seed = 1; seed <= seeds; seed++) {
      const { phase, stamps } = makeRecord(longest, recipe, new Deviates(seed), flicker);
      const running = new RunningJudgement({ within, of });
      let forecast: readonly [number, number, number] | null = null;
      for (let k = 4; k <= longest; k++) {
        if (!running.isDue(k)) continue;
        const found = running.look(readingsOf(stamps, k));
        if (found.wholeReadings === k && k === 64) forecast = found.needed;
        if (!found.isKnown) continue;
        expect(k).toBeGreaterThanOrEqual(30);
        const { overRun, steady } = found.rates!;
        const [low, high] = (of === "run" ? overRun : steady).interval95;
        expect((high - low) / 2).toBeLessThanOrEqual(within);
        const truth = of === "run" ? (tick * (phase[k]! - phase[0]!)) / (10 * k) : 0;
        ended++;
        if (low <= truth && truth <= high) held++;
        if (forecast !== null && k > 64) {
          asked++;
          if (forecast[1] <= k && k <= forecast[2]) foretold++;
        }
        break;
      }
    }
    const error = (n: number, p: number) => 3 * Math.sqrt((p * (1 - p)) / Math.max(1, n));
    console.log(`${held} of ${ended} held, of ${seeds}; ${foretold} of ${asked} foretold`);
    expect(ended).toBeGreaterThan(0.6 * seeds);
    // 93 % less three standard errors of so many seeds; of the forecasts three quarters, likewise.
    expect(held / ended).toBeGreaterThanOrEqual(0.93 - error(ended, 0.93));
    if (of === "run")
      expect(foretold / Math.max(1, asked)).toBeGreaterThanOrEqual(
        asked === 0 ? 0 : 0.75 - error(asked, 0.75),
      );
  });
});
