import { describe, expect, it } from "vitest";
import { coverage, type Layout } from "./coverage.ts";
import { recipes } from "./generators.ts";

/** Seeds a case; SEEDS=2000 for the table of record. */
const seeds = Number(process.env.SEEDS ?? 60);
/** Three standard errors below 93 %. */
const least = 0.93 - 3 * Math.sqrt((0.93 * 0.07) / seeds);
/** Widths over those of who knows the levels, over the run; pure FM has none, since its ends decide. */
const widest: Record<number, number> = { 20: 2.5, 100: 1.35, 400: 1.35 };
/** A median of few seeds scatters. */
const slack = 1 + 1 / Math.sqrt(seeds);

describe("coverage of both intervals, by generators that know nothing of the model", () => {
  for (const [name, recipe] of Object.entries(recipes)) {
    for (const size of [20, 100, 400]) {
      it(`${name}, ${size} readings back to back`, { timeout: 600_000 }, () => {
        const found = coverage({ size, recipe: recipe(size) }, seeds);
        expect(found.overRun).toBeGreaterThanOrEqual(least);
        expect(found.steady).toBeGreaterThanOrEqual(least);
        if (recipe(size).pm > 0) {
          expect(found.overRunWidth).toBeLessThan(widest[size]! * slack);
          expect(found.steadyWidth).toBeLessThan(1.25 * 10 * slack);
        }
      });
    }
  }
  for (const layout of ["dead time", "uneven", "gaps"] satisfies Layout[]) {
    for (const name of ["white PM", "PM and FM"]) {
      it(`${name}, 100 readings, ${layout}`, { timeout: 600_000 }, () => {
        const found = coverage({ size: 100, recipe: recipes[name]!(100), layout }, seeds);
        expect(found.overRun).toBeGreaterThanOrEqual(least);
        expect(found.steady).toBeGreaterThanOrEqual(least);
      });
    }
  }
});
