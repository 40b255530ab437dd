import { shortNumber } from "../../numeric/index.ts";
import type { Strategy } from "../../planning/index.ts";
import { inputPeriod } from "../../planning/index.ts";
import type { Scenario } from "../../scenario/index.ts";
import { humanDuration } from "../../view/words/index.ts";
import type { Progress } from "../progress.ts";
import { costByTrials } from "./cost-by-trials.ts";
import { type DeviationJob, deviationRun, mostStamps } from "./deviation-run.ts";
import { Deviations } from "./rms-ratio.ts";
import { runEnsemble } from "./run-ensemble.ts";
import { verifyJob } from "./verify-job.ts";

/** A prediction to be held to simulated runs. */
export interface Claim {
  readonly strategy: Strategy;
  /** Readings of a run; NaN where there is nothing to simulate. */
  readonly readings: number;
  /** Predicted rms of estimate less rate over the run; dimensionless. */
  readonly predicted: number;
  /** Allan deviation of the source at the run's length; dimensionless. */
  readonly sourceDeviation: number;
}

/** What simulated runs say to a prediction. */
export interface Verdict {
  readonly claim: Claim;
  /** Runs done. */
  readonly runs: number;
  /** Rms of estimate less rate over the run; NaN where nothing was simulated. */
  readonly observed: number;
  /** 95 % interval of observed over predicted. */
  readonly ratio95: readonly [number, number];
  readonly agrees: boolean;
  /** Why there are no runs, or null. */
  readonly skipped: string | null;
}

/** How an ensemble is to be made. */
export interface VerifyOptions {
  readonly seed: string;
  /** Runs of each way of measuring. */
  readonly runs: number;
  readonly workers: number;
  /** Time that all may take; s. */
  readonly time: number;
  readonly progress: Progress;
}

/** Of the source's own deviation: what is below does not matter. */
const negligible = 1e-3;
/** Rates that differ by less are the same in double precision. */
const rounding = 1e-15;

/**
 * Holds predictions to ensembles of simulated runs, the cheapest first, as far as the time goes.
 *
 * Slips at set moments are left out of the runs, as they are of the predictions.
 *
 * @returns a verdict on each claim, in their order, or null where interrupted
 */
export async function verifyPlan(
  scenario: Scenario,
  claims: readonly Claim[],
  options: VerifyOptions,
): Promise<readonly Verdict[] | null> {
  const { runs, workers, time, progress } = options;
  const verdicts = new Map<Claim, Verdict>();
  const skip = (claim: Claim, why: string) => {
    verdicts.set(claim, {
      claim,
      runs: 0,
      observed: Number.NaN,
      ratio95: [Number.NaN, Number.NaN],
      agrees: true,
      skipped: why,
    });
  };
  const feasible: { readonly claim: Claim; readonly cost: number }[] = [];
  for (const claim of claims) {
    const why = obstacleOf(claim);
    if (why === null) {
      const cost = (trialCost(scenario, claim, options.seed) * runs) / workers;
      feasible.push({ claim, cost });
    } else skip(claim, why);
  }
  feasible.sort((a, b) => a.cost - b.cost);
  const chosen: Claim[] = [];
  let total = 0;
  for (const { claim, cost } of feasible) {
    if (total + cost > time) {
      skip(claim, `${runs} runs would take about ${humanDuration(Math.max(1, cost))} to simulate`);
    } else {
      total += cost;
      chosen.push(claim);
    }
  }
  const deviations = chosen.map(() => new Deviations());
  const values = new Float64Array(chosen.length * runs);
  let done = 0;
  const isComplete = await runEnsemble(
    jobsOf(scenario, chosen, options),
    Math.min(workers, values.length),
    (index, deviation) => {
      values[index] = deviation;
      progress.show(++done / values.length);
      return true;
    },
  );
  progress.clear();
  if (!isComplete) return null;
  // In their order, so that the sums do not depend on which worker was faster.
  values.forEach((deviation, i) => {
    if (!Number.isNaN(deviation)) deviations[Math.floor(i / runs)]!.add(deviation);
  });
  chosen.forEach((claim, i) => {
    const empty = runs - deviations[i]!.count;
    if (empty > 0) skip(claim, `${empty} of ${runs} simulated runs gave no rate`);
    else verdicts.set(claim, judge(scenario, claim, deviations[i]!));
  });
  return claims.map((claim) => verdicts.get(claim)!);
}

function obstacleOf({ strategy, readings }: Claim): string | null {
  if (strategy.obstacle !== null) return strategy.obstacle;
  if (Number.isNaN(readings)) return "there is no such run";
  if (readings > mostStamps)
    return `a run of ${shortNumber(readings)} readings is too long to simulate`;
  return null;
}

function* jobsOf(
  scenario: Scenario,
  claims: readonly Claim[],
  { seed, runs }: VerifyOptions,
): Generator<readonly [number, DeviationJob], void, undefined> {
  let index = 0;
  for (const claim of claims) {
    for (let run = 1; run <= runs; run++) {
      yield [index++, verifyJob(scenario, claim.strategy, claim.readings, `${seed}-verify-${run}`)];
    }
  }
}

/**
 * Seconds that a run takes on one core, by shorter ones. CPU time: a trial is short beside the pauses that a busy
 * machine makes.
 */
function trialCost(scenario: Scenario, { strategy, readings }: Claim, seed: string): number {
  return costByTrials(readings, (trial) => {
    const from = process.cpuUsage();
    deviationRun(verifyJob(scenario, strategy, trial, `${seed}-trial`));
    const { user, system } = process.cpuUsage(from);
    return (user + system) / 1e6;
  });
}

function judge(scenario: Scenario, claim: Claim, deviations: Deviations): Verdict {
  const { predicted, sourceDeviation, strategy, readings } = claim;
  const observed = deviations.rms;
  const { counter, timing } = strategy;
  const oneCount = inputPeriod(scenario, counter.input) / (readings * timing.gate);
  const isBelowAll =
    Math.max(predicted, observed) <= Math.max(rounding, negligible * sourceDeviation);
  const isCounted = counter.technique === "direct" && observed <= oneCount;
  const [low, high] = deviations.interval(0.95);
  return {
    claim,
    runs: deviations.count,
    observed,
    ratio95: [low / predicted, high / predicted],
    agrees: isBelowAll || isCounted || !deviations.differFrom(predicted),
    skipped: null,
  };
}
