import { cleanReadings } from "../../src/judgement/index.ts";
import { bestFit, inferredCycles } from "../../src/judgement/index.ts";
import { faults } from "./bench.ts";
import { median } from "./coverage.ts";
import { Deviates } from "./generators.ts";

const seeds = Number(process.env.SEEDS ?? 20);
const only = process.env.ONLY ?? "";
for (const [name, make] of Object.entries(faults)) {
  if (!name.includes(only)) continue;
  let run = 0,
    withBound = 0,
    steady = 0;
  const width: number[] = [],
    wide: number[] = [],
    off: number[] = [];
  const told = new Map<string, number>();
  const t = performance.now();
  for (let seed = 1; seed <= seeds; seed++) {
    const { readings, truth } = make(new Deviates(seed));
    const clean = cleanReadings(inferredCycles(readings), 1);
    for (const s of clean.repaired.slips)
      told.set("repaired slip", (told.get("repaired slip") ?? 0) + 1);
    for (const s of clean.strays) told.set("stray", (told.get("stray") ?? 0) + 1);
    const fit = bestFit(clean.without)!;
    const [lo, hi] = fit.overRun.interval95;
    const bound = fit.systematic.reduce((a, c) => a + c.bound, 0);
    if (lo <= truth && truth <= hi) run++;
    if (lo - bound <= truth && truth <= hi + bound) withBound++;
    if (fit.steady.interval95[0] <= truth && truth <= fit.steady.interval95[1]) steady++;
    width.push((hi - lo) / 2);
    wide.push(bound);
    off.push(fit.overRun.rate - truth);
    for (const f of fit.findings) told.set(f.code, (told.get(f.code) ?? 0) + 1);
  }
  console.log(
    name.padEnd(38),
    "run",
    ((100 * run) / seeds).toFixed(0).padStart(4),
    "with bound",
    ((100 * withBound) / seeds).toFixed(0).padStart(4),
    "steady",
    ((100 * steady) / seeds).toFixed(0).padStart(4),
    "half",
    median(width).toExponential(2),
    "bound",
    median(wide).toExponential(1),
    "median off",
    median(off).toExponential(1),
    JSON.stringify(Object.fromEntries(told)),
    ((performance.now() - t) / seeds).toFixed(0) + " ms",
  );
}
