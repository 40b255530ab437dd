import { bench, describe } from "vitest";
import { demoCases, noiseCases } from "../planning/verify-cases.ts";
import { simulatedDeviations, verifyTable } from "../planning/verify-harness.ts";

/**
 * Predicted against simulated rms, every demo by every way of measuring and each noise type alone, by 1000 runs:
 * `npx vitest bench --run verify` prints the table. VERIFY_RUNS makes it shorter or longer, VERIFY_ONLY (part
 * of a name) picks rows.
 *
 * The last column is the 95 % interval of simulated over predicted; a row whose 99.9 % interval leaves 0.9 to
 * 1.1 is marked.
 */
const runs = Number(process.env.VERIFY_RUNS ?? 1000);
const only = process.env.VERIFY_ONLY ?? "";

function printTable(): void {
  for (const [name, method, one] of verifyTable([...demoCases, ...noiseCases])) {
    if (!name.includes(only)) continue;
    const { prediction, deviations } = simulatedDeviations(one, method, runs);
    const { readings, standardUncertainty: predicted } = prediction;
    const ends = (confidence: number) =>
      deviations.interval(confidence).map((end) => end / predicted) as [number, number];
    const [low, high] = ends(0.999);
    const interval = ends(0.95).map((end) => end.toFixed(3));
    const mark = low > 1.1 || high < 0.9 ? "  DIFFERS" : "";
    console.log(
      `${name.slice(0, 50).padEnd(50)} ${method.padEnd(20)} ${String(readings).padStart(4)} ` +
        `${predicted.toExponential(2)} ${deviations.rms.toExponential(2)} ${interval.join(" to ")}${mark}`,
    );
  }
}

if (runs > 0) printTable();

describe("one simulated run with its estimate", () => {
  const [name, method, one] = verifyTable(demoCases)[0]!;
  bench(`${name}, ${method}`, () => {
    simulatedDeviations(one, method, 1);
  });
});
