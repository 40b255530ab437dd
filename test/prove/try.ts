import { coverage } from "./coverage.ts";
import { recipes } from "./generators.ts";

const seeds = Number(process.env.SEEDS ?? 40);
const sizes = (process.env.SIZES ?? "20,100,400").split(",").map(Number);
const only = process.env.ONLY ?? "";
const layout = (process.env.LAYOUT ?? "back to back") as any;
for (const [name, recipe] of Object.entries(recipes)) {
  if (!name.includes(only)) continue;
  for (const size of sizes) {
    const t = performance.now();
    const r = recipe(size);
    const known = process.env.BOUND
      ? {
          floor: 1.5 * Math.sqrt(r.ffm) || (1e-3 * 12) / size ** 1.5,
          whiteFm: 1.5 * Math.sqrt(r.wfm) || (1e-3 * 3.5) / size,
        }
      : undefined;
    const c = coverage({ size, recipe: r, layout, ...(known ? { known } : {}) }, seeds);
    console.log(
      name.padEnd(20),
      size,
      "run",
      (100 * c.overRun).toFixed(1),
      c.overRunWidth.toFixed(2),
      "steady",
      (100 * c.steady).toFixed(1),
      c.steadyWidth.toFixed(2),
      ((performance.now() - t) / seeds).toFixed(1) + " ms",
    );
  }
}
