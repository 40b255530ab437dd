import { bench, describe } from "vitest";
import { demoCases, noiseCases } from "../prove/planning/verify-cases.ts";
import { simulatedDeviations, verifyTable } from "../prove/planning/verify-harness.ts";

/**
 * Predicted against simulated rms, every demo by every way of measuring and each noise type alone, by 1000 runs:
 * `npx vitest bench --run verify` prints the table and fails where a row differs. VERIFY_RUNS makes it shorter or
 * longer, VERIFY_ONLY (part of a name) picks rows.
 *
 * A row shows the ratio of simulated to predicted and the interval that holds it: so sure of each that all of them
 * hold with 99 %. A row whose interval lies outside 0.9 to 1.1 differs. What is below a thousandth of the source's
 * own deviation does not matter, but must be so in both.
 */
const runs = Number(process.env.VERIFY_RUNS ?? 1000);
const only = process.env.VERIFY_ONLY ?? "";
const familyConfidence = 0.99;
const tolerance = 0.1;
const negligible = 1e-3;

/** Prints the table; returns the rows that differ. */
function printTable(): string[] {
  const rows = verifyTable([...demoCases, ...noiseCases]).filter(([name]) => name.includes(only));
  const differing: string[] = [];
  let farthest = 0;
  for (const [name, method, one] of rows) {
    const { prediction, deviations } = simulatedDeviations(one, method, runs);
    const { readings, standardUncertainty: predicted, sourceDeviation } = prediction;
    const ratio = deviations.rms / predicted;
    // Šidák: of independent rows.
    const [low, high] = deviations.interval(familyConfidence ** (1 / rows.length));
    const isNegligible = Math.max(predicted, deviations.rms) <= negligible * sourceDeviation;
    const differs =
      !isNegligible && !(low / predicted <= 1 + tolerance && high / predicted >= 1 - tolerance);
    if (differs) differing.push(`${name}, ${method}`);
    if (!isNegligible) farthest = Math.max(farthest, Math.abs(ratio - 1));
    console.log(
      `${name.slice(0, 50).padEnd(50)} ${method.padEnd(20)} ${String(readings).padStart(4)} ` +
        `${predicted.toExponential(2)} ${deviations.rms.toExponential(2)} ${ratio.toFixed(3)} ` +
        `(${(low / predicted).toFixed(3)} to ${(high / predicted).toFixed(3)})` +
        `${isNegligible ? "  negligible" : ""}${differs ? "  DIFFERS" : ""}`,
    );
  }
  console.log(`${rows.length} rows of ${runs} runs; the farthest is ${farthest.toFixed(3)} from 1`);
  return differing;
}

if (runs > 0) {
  const differing = printTable();
  if (differing.length > 0) {
    throw new Error(
      `simulated and predicted rms differ by more than 10 %: ${differing.join("; ")}`,
    );
  }
}

describe("one simulated run with its estimate", () => {
  const [name, method, one] = verifyTable(demoCases)[0]!;
  bench(`${name}, ${method}`, () => {
    simulatedDeviations(one, method, 1);
  });
});
