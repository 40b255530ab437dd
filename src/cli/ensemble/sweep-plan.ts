import type { Recording } from "../../scenario/index.ts";
import { UsageError } from "../failures.ts";
import type { Varied } from "./vary.ts";

/** Which part of a sweep is done here: every so-manieth run, the first being number `index`. */
export interface Shard {
  /** From 1 to `count`. */
  readonly index: number;
  readonly count: number;
}

/** All that the rows of a sweep depend on. */
export interface SweepPlan {
  readonly varied: readonly Varied[];
  /** Seed that the seeds of the runs are made from. */
  readonly seed: string;
  /** Runs of each combination of values. */
  readonly seeds: number;
  /** s, or null: the scenario's. */
  readonly length: number | null;
  readonly readings: number | null;
  readonly recording: Recording | null;
  readonly shard: Shard;
}

/** Most runs a sweep may have: each keeps a few bytes in memory. */
const mostRuns = 1e8;

/** How many combinations of values a sweep has. */
export function combinationsOf(plan: SweepPlan): number {
  return plan.varied.reduce((product, { texts }) => product * texts.length, 1);
}

/**
 * How many runs a sweep has, all shards together.
 *
 * @throws UsageError if they are too many to be counted
 */
export function runsOf(plan: SweepPlan): number {
  const runs = combinationsOf(plan) * plan.seeds;
  if (runs > mostRuns)
    throw new UsageError(
      `a sweep of ${runs} runs is too large; the most is 1e8: vary fewer values, or lower --seeds`,
    );
  return runs;
}

/** How many of them are in the plan's shard. */
export function rowsOf(plan: SweepPlan): number {
  const { index, count } = plan.shard;
  return Math.max(0, Math.floor((runsOf(plan) - index) / count) + 1);
}

/** Which run of the whole sweep a row of the shard is. */
export function runOfRow({ index, count }: Shard, row: number): number {
  return row * count + index - 1;
}

/** The values and the seed of one run: the first key varies slowest, the seed fastest. */
export interface SweepMember {
  readonly combination: number;
  /** Which value each varied key has. */
  readonly choice: readonly number[];
  readonly seed: string;
}

/**
 * The values and the seed of a run of a sweep. Each combination of values gets the same seeds.
 *
 * @param run - from 0 to `runsOf(plan)` − 1
 */
export function memberOf(plan: SweepPlan, run: number): SweepMember {
  const combination = Math.floor(run / plan.seeds);
  const choice: number[] = [];
  let rest = combination;
  for (const { texts } of plan.varied.toReversed()) {
    choice.unshift(rest % texts.length);
    rest = Math.floor(rest / texts.length);
  }
  return { combination, choice, seed: `${plan.seed}-${(run % plan.seeds) + 1}` };
}

/**
 * Reads `I/N`.
 *
 * @throws UsageError if it has not that form
 */
export function parseShard(text: string): Shard {
  const match = /^\s*(\d+)\s*\/\s*(\d+)\s*$/.exec(text);
  const index = Number(match?.[1]);
  const count = Number(match?.[2]);
  if (match === null || !(index >= 1 && index <= count && count <= mostRuns)) {
    throw new UsageError(`--shard ${text}: must have the form I/N, with I from 1 to N`);
  }
  return { index, count };
}
