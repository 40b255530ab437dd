import { settleRun } from "../../chain/index.ts";
import { chiSquareQuantile } from "../../numeric/index.ts";
import type { Budget } from "../../planning/index.ts";
import type { Scenario } from "../../scenario/index.ts";
import { isInterrupted } from "../interrupt.ts";
import { runEnsemble } from "./run-ensemble.ts";
import type { ScatterJob } from "./scatter-run.ts";
import { slipRateOf } from "./slip-rate.ts";

/** How simulated readings scatter about the source's own rate in their gates. */
export interface SimulatedScatter {
  /** Rms; dimensionless. */
  readonly rms: number;
  /** Independent Gaussian readings that would know it as well. */
  readonly effectiveReadings: number;
  readonly readings: number;
  readonly runs: number;
  /** 95 % interval of the rms. */
  readonly interval95: readonly [number, number];
}

/** Runs end when so many effective readings are there: the rms is then known to 1.6 %. */
const enough = 2000;
/** Runs are looked at in groups, so that where they end does not depend on the workers. */
const group = 32;
const mostRuns = 2048;
/** Readings of all runs at most. */
const mostInAll = 400_000;

/**
 * The scenario whose readings are simulated: as long as its runs, and without slips at set moments.
 *
 * @param spacing - from one reading to the next; s
 * @param most - readings of a run at most
 */
export function scatterScenario(scenario: Scenario, spacing: number, most = 2000): Scenario {
  const length = Math.min(scenario.length, most * spacing);
  return { ...scenario, length, disturbances: [] };
}

/**
 * Simulates independent runs until the scatter of their readings is known.
 *
 * @param scenario - from `scatterScenario`
 * @param budget - of that scenario
 * @param seed - that the seeds of the runs are made from
 * @returns the scatter, or null where interrupted
 */
export async function simulateScatter(
  scenario: Scenario,
  budget: Budget,
  seed: string,
  workers: number,
): Promise<SimulatedScatter | null> {
  const squares: number[] = [];
  const counts: number[] = [];
  let inOrder = 0;
  let found: SimulatedScatter | null = null;
  await runEnsemble(scatterJobs(scenario, budget, seed), workers, (index, scatter) => {
    squares[index] = scatter.squares;
    counts[index] = scatter.count;
    while (squares[inOrder] !== undefined) {
      inOrder++;
      if (inOrder % group !== 0 && inOrder !== mostRuns) continue;
      found = scatterOf(squares.slice(0, inOrder), counts.slice(0, inOrder));
      if (found.effectiveReadings >= enough || found.readings >= mostInAll) return false;
    }
    return true;
  });
  return isInterrupted() ? null : found;
}

/** The runs, with seeds of their own, as many as there may be. */
export function* scatterJobs(
  scenario: Scenario,
  budget: Budget,
  seed: string,
): Generator<readonly [number, ScatterJob], void, undefined> {
  const systematic = budget.rows
    .filter(({ kind }) => kind === "systematic")
    .map(({ cause, fractionOfPeriodRms }) => ({ cause, bound: fractionOfPeriodRms }));
  const slipRate = slipRateOf(systematic);
  for (let run = 0; run < mostRuns; run++) {
    const { options } = settleRun(scenario, {
      seed: `${seed}-budget-${run + 1}`,
      length: null,
      readings: null,
      recording: "lazy",
      wantsTicks: false,
      wantsBursts: false,
    });
    yield [run, { kind: "scatter", scenario, options, slipRate }];
  }
}

/**
 * Mean square over all readings, and how well the runs agree on it.
 *
 * @param squares - of each run: sum of squares
 * @param counts - of each run: readings; two runs or more
 */
export function scatterOf(squares: readonly number[], counts: readonly number[]): SimulatedScatter {
  const runs = squares.length;
  const readings = counts.reduce((sum, count) => sum + count, 0);
  const mean = squares.reduce((sum, square) => sum + square, 0) / readings;
  // Ratio estimator: Var(ΣS/Σn) = R/(R − 1)·Σ(S − n·mean)²/(Σn)².
  const spread = squares.reduce((sum, square, i) => sum + (square - counts[i]! * mean) ** 2, 0);
  const variance = ((runs / (runs - 1)) * spread) / readings ** 2;
  // Chance may make the runs agree better; correlation of whatever sign makes readings worth less, never more.
  const effectiveReadings =
    variance > 0 ? Math.min(readings, (2 * mean * mean) / variance) : readings;
  const dof = Math.max(1, effectiveReadings);
  const end = (p: number) => Math.sqrt((mean * dof) / chiSquareQuantile(p, dof));
  return {
    rms: Math.sqrt(mean),
    effectiveReadings,
    readings,
    runs,
    interval95: [end(0.975), end(0.025)],
  };
}
