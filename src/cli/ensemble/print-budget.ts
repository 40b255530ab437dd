import { shortNumber } from "../../numeric/index.ts";
import {
  type Budget,
  type Contribution,
  type ContributionKind,
  raceInWords,
} from "../../planning/index.ts";
import type { SimulatedRms } from "../../view/table/index.ts";
import {
  bar,
  commonRateUnit,
  humanDuration,
  type RateUnit,
  rateNumber,
  rateSize,
  unitAsFraction,
} from "../../view/words/index.ts";
import { labelled, styled, textTable, wrap } from "../style.ts";

const others: readonly (readonly [ContributionKind, string])[] = [
  ["accumulating", "The source's own wandering, Allan deviation at this gate"],
  ["systematic", "Bounds, which no averaging narrows"],
  ["explained", "Known parts of the rate"],
];

/** Cells of the longest bar. */
const barCells = 13;
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
  const lines = [
    styled("bold", title),
    wrap(
      random[0] === undefined
        ? `Nothing random is added to a reading of ${gate}.`
        : `A reading of ${gate} scatters by ${rateSize(totalRandomRms)} rms (${shortNumber(totalRandomRms)}) ` +
            `about the source's own rate; most of it comes from ${nameOf(random[0])}.`,
    ),
    "",
    ...randomRows(random, totalRandomRms, simulated),
    ...(budget.race === null ? [] : ["", wrap(`Note: ${raceInWords(budget.race)}.`)]),
  ];
  for (const [kind, heading] of others) {
    const group = rows.filter((row) => row.kind === kind);
    if (group.length === 0) continue;
    const unit = unitOf(group);
    const sign = (size: number) =>
      kind === "systematic" ? "±" : kind === "explained" && size > 0 ? "+" : "";
    lines.push(
      "",
      textTable([
        [heading, unit.name],
        ...group.map((row) => [
          `  ${nameOf(row)}`,
          sign(row.fractionOfPeriodRms) + rateNumber(row.fractionOfPeriodRms, unit),
        ]),
      ]),
    );
  }
  return `${lines.join("\n")}\n`;
}

function randomRows(
  random: readonly Contribution[],
  total: number,
  simulated: SimulatedRms | null,
): string[] {
  const shown = random.filter(({ fractionOfPeriodRms: size }) => size > negligible * total);
  const unit = unitOf(shown);
  const lines: string[] = [];
  if (shown.length > 0) {
    const largest = shown[0]!.fractionOfPeriodRms;
    const table = shown.map((row) => [
      nameOf(row),
      rateNumber(row.fractionOfPeriodRms, unit),
      shareOf(row, total),
      bar((row.fractionOfPeriodRms / largest) * barCells),
    ]);
    lines.push(
      textTable([["in one reading, rms", unit.name, "share", ""], ...table], [0, 3]),
      "",
      wrap(`Bars show sizes; shares are those of squares, which add up. ${unitAsFraction(unit)}.`),
    );
    const hidden = random.length - shown.length;
    if (hidden > 0) lines.push(`${hidden} more below a millionth of the sum.`);
  }
  const size = (rate: number) => rateNumber(rate, unit);
  const sums: [string, string][] = [["all together", `${size(total)} ${unit.name}`]];
  if (simulated !== null) {
    const [low, high] = simulated.interval95;
    sums.push([
      "simulated",
      `${size(simulated.rms)} ${unit.name}, 95 %: ${size(low)} to ${size(high)} ` +
        `(${simulated.readings} readings in ${simulated.runs} runs, ` +
        `worth ${Math.round(simulated.effectiveReadings)} independent ones)`,
    ]);
  }
  return [...lines, ...labelled(sums)];
}

const unitOf = (rows: readonly Contribution[]): RateUnit =>
  commonRateUnit(rows.map(({ fractionOfPeriodRms }) => fractionOfPeriodRms));

const nameOf = ({ stage, cause }: Contribution): string => `${stage}: ${cause}`;

function shareOf({ fractionOfPeriodRms }: Contribution, total: number): string {
  const percent = total > 0 ? 100 * (fractionOfPeriodRms / total) ** 2 : 0;
  return percent < 0.01 ? "<0.01 %" : `${shortNumber(percent)} %`;
}
