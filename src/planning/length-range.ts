import type { Scenario } from "../scenario/index.ts";
import { planLengths } from "./plan.ts";

/** A key that is not known, and the ends between which it lies. */
export interface KeyRange {
  /** From the top of the scenario, joined by dots. */
  readonly path: string;
  readonly ends: readonly [number, number];
}

/** What a key does to the length of a run over its range. */
export interface KeyEffect {
  readonly path: string;
  /** Planned lengths at both ends, shorter first; s, Infinity where the accuracy is not reached. */
  readonly lengths: readonly [number, number];
  /** Which of the ends makes the run longer. */
  readonly worse: number;
  readonly better: number;
}

/** How long a run must last where keys are known as ranges only. */
export interface LengthRange {
  /** With the keys as they stand; s, Infinity where the accuracy is not reached. */
  readonly typical: number;
  /** With every key at the better end, and at the worse. */
  readonly optimistic: number;
  readonly pessimistic: number;
  /** What stands in the way at the worse ends; empty where nothing does. */
  readonly obstacle: string;
  /** The keys, those with the largest effect first. */
  readonly effects: readonly KeyEffect[];
}

/** Ratio of the lengths; Infinity where one end never gets there, 1 where neither does. */
export const factorOf = ({ lengths: [short, long] }: KeyEffect): number =>
  short === Infinity ? 1 : long / short;

/**
 * The shortest run by any way of measuring, with keys at their ends one by one and all together.
 *
 * @param scenarioWith - the scenario with some keys set, by path; null where that makes no scenario
 * @param ranges - the keys that are not known
 * @param within - accuracy asked for; dimensionless, > 0
 * @returns lengths; an end that makes no scenario counts as never reached
 *
 * Source: one-at-a-time sensitivity; exact where every key acts in one direction whatever the others are.
 */
export function lengthRange(
  scenarioWith: (values: Readonly<Record<string, number>>) => Scenario | null,
  ranges: readonly KeyRange[],
  within: number,
): LengthRange {
  let obstacle = "";
  const lengthWith = (values: Readonly<Record<string, number>>): number => {
    const scenario = scenarioWith(values);
    obstacle = "the bursts no longer make steps";
    if (scenario === null) return Infinity;
    const { rows, shortest } = planLengths(scenario, within);
    obstacle = shortest ? "" : (rows[0]?.result.limitedBy ?? "");
    return rows.find(({ strategy }) => strategy === shortest)?.result.length ?? Infinity;
  };
  const effects = ranges.map(({ path, ends }): KeyEffect => {
    const [first, second] = ends.map((end) => lengthWith({ [path]: end })) as [number, number];
    const [better, worse] = first <= second ? ends : ([ends[1], ends[0]] as const);
    return { path, lengths: [Math.min(first, second), Math.max(first, second)], worse, better };
  });
  const all = (end: "better" | "worse") =>
    lengthWith(Object.fromEntries(effects.map((effect) => [effect.path, effect[end]])));
  const typical = lengthWith({});
  const optimistic = all("better");
  const pessimistic = all("worse");
  return {
    typical,
    optimistic,
    pessimistic,
    obstacle,
    effects: effects.toSorted((a, b) => factorOf(b) - factorOf(a)),
  };
}
