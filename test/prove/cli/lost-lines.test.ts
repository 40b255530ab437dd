import { expect, it } from "vitest";
import { holdsTruth } from "../../judgement/spoilt-run.ts";

/** SEEDS=300 for the figure of record. */
const seeds = Number(process.env.SEEDS ?? 40);

// The claim is a coverage of 93 % at least; three standard errors below it is where chance ends. Without stamps the lines
// tell a loss only where its step stands out of the noise: of 30 such records 20 were held, and judge warns of it.
it("one line in a hundred lost, with stamps: the interval over the run holds the truth in 93 %", () => {
  let held = 0;
  for (let seed = 0; seed < seeds; seed++) held += holdsTruth(`seed ${seed}`) ? 1 : 0;
  expect(held / seeds).toBeGreaterThan(0.93 - 3 * Math.sqrt((0.93 * 0.07) / seeds));
});
