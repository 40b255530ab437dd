import type { Comparison, Difference, HeldRate, Judgement } from "../judgement/index.ts";
import { rateScales } from "../view/chart/index.ts";
import {
  commonRateUnit,
  halfWidthText,
  humanDuration,
  rateNumbersWithin,
  rateSize,
  rateWithin,
  unitAsFraction,
} from "../view/words/index.ts";
import { styled, textTable, wrap } from "./style.ts";

/** A record that is compared. */
export interface ComparedRecord {
  /** Short and unlike the others. */
  readonly name: string;
  readonly judgement: Judgement;
}

/** Cells of the picture. */
const cells = 56;

const halfOf = ({ interval95: [low, high] }: HeldRate) => (high - low) / 2;

/** Whether records differ, in the first words of the answer. */
export function comparisonInWords(
  records: readonly ComparedRecord[],
  { differences }: Comparison,
): string[] {
  const apart = differences.filter(({ differs }) => differs);
  const held = records.length === 2 ? "95 %" : "95 % for all pairs together";
  const most = Math.max(...differences.map(mostOf));
  if (apart.length === 0) {
    return [
      `Not told apart: any difference of the steady rates is below ${rateSize(most, 2)} (${held}).`,
    ];
  }
  const all =
    ["", "", "The two differ.", "All three differ."][records.length] ??
    `All ${records.length} differ.`;
  const first =
    apart.length === differences.length
      ? all
      : `${apart.length} of ${differences.length} pairs differ.`;
  return [
    `${first} Steady rates, ${held}:`,
    ...differences.map((difference) => {
      const { between, steady, systematicBound, differs } = difference;
      const [a, b] = between.map((i) => records[i]!.name);
      if (!differs)
        return `${a} and ${b} are not told apart: any difference is below ${rateSize(mostOf(difference), 2)}.`;
      const loses = steady.rate < 0 ? "loses" : "gains";
      const half = halfOf(steady) + systematicBound;
      return `${a} ${loses} ${rateWithin(Math.abs(steady.rate), half).replace("+", "")} against ${b}.`;
    }),
  ];
}

const shortened = (name: string) => (name.length > 24 ? `${name.slice(0, 23)}…` : name);

/** The largest difference that is not ruled out; dimensionless. */
const mostOf = ({ steady, systematicBound }: Difference) =>
  Math.max(...steady.interval95.map(Math.abs)) + systematicBound;

/** Rates of each record, their differences, what limits them, and what would tell apart what is not. */
export function printComparison(
  records: readonly ComparedRecord[],
  comparison: Comparison,
  timebase: { readonly same: boolean; readonly moves: number },
): string {
  const { differences } = comparison;
  const answer = comparisonInWords(records, comparison);
  const lines = [
    styled("bold", wrap(answer[0]!)),
    ...answer.slice(1).map((text) => wrap(text, 80, "  ")),
    "",
  ];
  const headlines = records.map(({ judgement }) => judgement.headline!);
  const rates = headlines.flatMap(({ overRun, steady }) => [overRun, steady]);
  const unit = commonRateUnit(rates.flatMap((held) => [held.rate, halfOf(held)]));
  const within = (held: HeldRate) => rateNumbersWithin(held.rate, halfOf(held), unit);
  lines.push(
    textTable([
      [`${unit.name}, 95 % each`, "over its run", "steady", "readings", "in"],
      ...records.map(({ name, judgement: { readings } }, i) => [
        `${i + 1} ${shortened(name)}`,
        within(headlines[i]!.overRun),
        within(headlines[i]!.steady),
        String(readings),
        humanDuration(headlines[i]!.duration),
      ]),
    ]),
    "",
    textTable([
      ["difference", "over the runs", "steady", "and up to"],
      ...differences.map(({ between: [i, j], overRun, steady, systematicBound }) => [
        `${i + 1} less ${j + 1}`,
        within(overRun),
        within(steady),
        systematicBound > 0 ? halfWidthText(systematicBound) : "–",
      ]),
    ]),
    `${unitAsFraction(unit)}.`,
  );
  const bounds = headlines.map(({ systematicBound }) => systematicBound);
  if (timebase.same) {
    lines.push(
      wrap(
        `Time base: one and the same, up to ${halfWidthText(Math.max(...bounds))} on all rates alike; differences count only ${timebase.moves > 0 ? `the ${rateSize(timebase.moves, 2)} that it may have moved` : "what else shifts each (--timebase-moves says how far it may have moved)"}.`,
        80,
        "  ",
      ),
    );
  } else if (Math.max(...bounds) > 0) {
    lines.push(
      wrap(
        "Time base: what each may be off by adds up in a difference; if it was one and the same, --same-timebase takes it out.",
        80,
        "  ",
      ),
    );
  }
  for (const { between, steady, differs, toHalve } of differences) {
    if (differs) continue;
    const more = toHalve.map((time, k) => {
      const { name } = records[between[k]!]!;
      return time === Number.POSITIVE_INFINITY
        ? `more of ${name} alone would not help`
        : `${humanDuration(time)} more of ${name}`;
    });
    lines.push(
      wrap(
        `To halve ${halfWidthText(halfOf(steady))} between ${between.map((i) => records[i]!.name).join(" and ")}: ${more.join("; ")}.`,
        80,
        "  ",
      ),
    );
  }
  return `${[...lines, "", ...picture(records)].join("\n")}\n`;
}

/** Steady rates at up to three scales: `|--o--|`, or an arrow where one is off the scale. */
function picture(records: readonly ComparedRecord[]): string[] {
  const rates = records.map(({ name, judgement }) => ({ name, ...judgement.headline!.steady }));
  const width = Math.min(80 - cells - 3, Math.max(...rates.map(({ name }) => name.length)));
  return rateScales(rates).flatMap(({ middle, half, times }) => [
    `${times === 1 ? "Steady rates" : `${times.toLocaleString("en").replaceAll(",", " ")} times larger`}: ${rateSize(2 * half, 2)} across`,
    ...rates.map(({ name, rate, interval95: [low, high] }) => {
      const cell = (value: number) => Math.round(((value - middle) / half + 1) * 0.5 * (cells - 1));
      const [from, at, to] = [cell(low), cell(rate), cell(high)];
      const isSeen = to - from > 2;
      const row = Array.from({ length: cells }, (_, i): string => {
        if (i === at) return "o";
        if (isSeen && (i === from || i === to)) return "|";
        return i > from && i < to ? "-" : "·";
      });
      if (to < 0) row[0] = "<";
      if (from >= cells) row[cells - 1] = ">";
      return `  ${name.slice(0, width).padEnd(width)} ${row.join("")}`;
    }),
  ]);
}
