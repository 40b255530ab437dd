import type { Outlier } from "../judgement/index.ts";
import { shortNumber } from "../numeric/index.ts";
import { counted, humanDuration } from "../view/words/index.ts";
import { wrap } from "./style.ts";

/** Outliers told one by one; the rest by number. */
const mostTold = 8;

/**
 * What is wrong with which reading, a line each; neighbours with the same fault in one line.
 *
 * @param outliers - in the order of the readings
 * @param line - line of each reading in its file, where there is one; from 1
 */
export function outliersInWords(
  outliers: readonly Outlier[],
  line: ArrayLike<number> = [],
): string[] {
  if (outliers.length === 0) return [];
  const groups: Outlier[][] = [];
  for (const outlier of outliers) {
    const last = groups.at(-1);
    if (last !== undefined && isAlike(last.at(-1)!, outlier)) last.push(outlier);
    else groups.push([outlier]);
  }
  const lines = groups
    .slice(0, mostTold)
    .map((group) => wrap(`  ${inWords(group, line)}`.replace("  ", "\u00a0\u00a0"), 80, "    "));
  const rest = groups.slice(mostTold).reduce((sum, group) => sum + group.length, 0);
  if (rest > 0) lines.push(`  … and ${counted(rest, "more such reading")}.`);
  return ["Of the readings, counted from 0:", ...lines];
}

/** What steps and spans at another rate come to: they are in neither the rate nor the slips. */
export function stepsInWords(outliers: readonly Outlier[]): string[] {
  const steps = outliers.filter(({ kind, timeError }) => kind !== "stray" && timeError);
  if (steps.length === 0) return [];
  const sum = steps.reduce((total, { timeError }) => total + timeError!, 0);
  const spans = steps.some(({ kind }) => kind === "span") ? " and spans at another rate" : "";
  return [
    wrap(
      `Steps${spans}: ${humanDuration(Math.abs(sum))} ${sum < 0 ? "lost" : "gained"} in all, counted neither in the rate nor in the slips.`,
      80,
      "  ",
    ),
  ];
}

function isAlike(a: Outlier, b: Outlier): boolean {
  return a.repaired && a.kind === b.kind && a.cycles === b.cycles && b.reading === a.reading + 1;
}

function inWords(group: readonly Outlier[], line: ArrayLike<number>): string {
  const { kind, cycles, timeError } = group[0]!;
  const where = placeOf(group, line);
  const size = counted(Number(shortNumber(Math.abs(cycles), 3)), "cycle");
  const signed =
    timeError === undefined
      ? ""
      : `${timeError < 0 ? "-" : "+"}${humanDuration(Math.abs(timeError))}`;
  if (kind === "step")
    return `${where}: the time error steps by ${signed}, no whole slip; excluded.`;
  if (kind === "span") {
    const off = timeError === undefined ? `${size} ${cycles > 0 ? "lost" : "gained"}` : signed;
    return `from ${where} on: another rate, ${off} until the next break; excluded.`;
  }
  if (kind === "stray") {
    return `${where}: outlier by ${timeError === undefined ? size : signed}; excluded.`;
  }
  const fault = `${size} ${kind === "missed_edge" ? "missed" : "too many"}`;
  return group.length === 1
    ? `${where}: ${fault}; count put right.`
    : `${where}: ${fault} each; counts put right.`;
}

/** Where the readings of a group are: by number, and by line where that is known. */
function placeOf(group: readonly Outlier[], line: ArrayLike<number>): string {
  const first = group[0]!.reading;
  const last = group.at(-1)!.reading;
  const [from, to] = [line[first] ?? 0, line[last] ?? 0];
  if (first === last) return `reading ${first}${from > 0 ? ` (line ${from})` : ""}`;
  const lines = from > 0 && to > 0 ? ` (lines ${from} to ${to})` : "";
  return `readings ${first} to ${last}${lines}`;
}
