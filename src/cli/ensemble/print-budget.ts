import type { Budget, Contribution, ContributionKind } from "../../planning/index.ts";
import { humanDuration } from "../../planning/index.ts";
import { terminalBars } from "../../view/chart/index.ts";
import type { SimulatedRms } from "../../view/table/index.ts";
import { plainRate } from "../plain-rate.ts";
import { styled, textTable, wrap } from "../style.ts";
import { shortNumber } from "./short-number.ts";

const others: readonly (readonly [ContributionKind, string])[] = [
  ["accumulating", "The source's own wandering, Allan deviation at this gate"],
  ["systematic", "Bounds, which no averaging narrows"],
  ["explained", "Known parts of the rate"],
];

/** Cells of the longest bar. */
const barCells = 16;
/** Of the sum: rows below are not printed. */
const negligible = 1e-6;

/**
 * An uncertainty budget for people.
 *
 * @param title - of the scenario
 * @param simulated - the scatter of simulated readings, or null where there is none
 */
export function printBudget(title: string, budget: Budget, simulated: SimulatedRms | null): string {
  const { rows, totalRandomRms } = budget;
  const gate = humanDuration(budget.gate);
  const random = rows.filter(({ kind }) => kind === "random");
  const lines = [styled("bold", title)];
  const largest = random[0];
  lines.push(
    wrap(
      largest === undefined
        ? `Nothing random is added to a reading of ${gate}.`
        : `A reading of ${gate} scatters by ${shortNumber(totalRandomRms)}, ` +
            `${plainRate(totalRandomRms).replace("+", "")} rms, ` +
            `about the source's own rate; most of it comes from ${nameOf(largest)}.`,
    ),
    "",
  );
  const shown = random.filter(
    ({ fractionOfPeriodRms }) => fractionOfPeriodRms > negligible * totalRandomRms,
  );
  if (shown.length > 0) {
    const bars = barsOf(shown.map(({ fractionOfPeriodRms }) => fractionOfPeriodRms));
    const table = shown.map((row, i) => [
      nameOf(row),
      shortNumber(row.fractionOfPeriodRms),
      shareOf(row, totalRandomRms),
      bars[i]!,
    ]);
    lines.push(
      textTable([["in one reading, rms", "size", "share", ""], ...table], [0, 3]),
      "",
      wrap("Bars show sizes; shares are those of squares, which add up."),
    );
    const hidden = random.length - shown.length;
    if (hidden > 0) lines.push(`${hidden} more below a millionth of the sum.`);
  }
  lines.push(`all together  ${threeDigits(totalRandomRms)}`);
  if (simulated !== null) {
    const [low, high] = simulated.interval95;
    lines.push(
      wrap(
        `simulated     ${threeDigits(simulated.rms)}, 95 %: ${threeDigits(low)} to ${threeDigits(high)} ` +
          `(${simulated.readings} readings in ${simulated.runs} runs, ` +
          `worth ${Math.round(simulated.effectiveReadings)} independent ones)`,
        80,
        "              ",
      ),
    );
  }
  for (const [kind, heading] of others) {
    const group = rows.filter((row) => row.kind === kind);
    if (group.length === 0) continue;
    const isSigned = kind === "explained";
    lines.push(
      "",
      heading,
      textTable(
        group.map((row) => [
          `  ${nameOf(row)}`,
          shortNumber(row.fractionOfPeriodRms),
          isSigned
            ? plainRate(row.fractionOfPeriodRms)
            : plainRate(row.fractionOfPeriodRms).replace("+", kind === "systematic" ? "±" : ""),
        ]),
      ),
    );
  }
  return `${lines.join("\n")}\n`;
}

/** Bars of at most so many cells, the longest for the largest value. */
function barsOf(values: readonly number[]): string[] {
  const narrowest = 40;
  // Label and text take a cell each, and a space after it; a bar that is not shown sets the scale.
  const cells = narrowest - 4;
  const scale = (Math.max(...values) * cells) / barCells;
  const bar = (value: number) => ({ label: " ", value, text: " " });
  const lines = terminalBars([...values, scale].map(bar), { width: narrowest });
  return values.map((_, i) => lines[i]!.trim());
}

const threeDigits = (value: number): string =>
  value > 0 && value < 1e-3 ? value.toExponential(2) : value.toPrecision(3);

const nameOf = ({ stage, cause }: Contribution): string => `${stage}: ${cause}`;

function shareOf({ fractionOfPeriodRms }: Contribution, total: number): string {
  const percent = total > 0 ? 100 * (fractionOfPeriodRms / total) ** 2 : 0;
  return percent < 0.01 ? "<0.01 %" : `${Number(percent.toPrecision(2))} %`;
}
