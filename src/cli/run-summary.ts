import type { RunOptions } from "../chain/index.ts";
import { nominalPeriod } from "../chain/index.ts";
import type { RateEstimate } from "../judgement/index.ts";
import { cleanedRates, headlineOf } from "../judgement/index.ts";
import {
  type EstimateTruth,
  estimateTruths,
  raceOfScenario,
  runReadings,
  timeBaseBound,
  unraced,
} from "../planning/index.ts";
import type { Scenario, Warning } from "../scenario/index.ts";
import {
  estimateToJson,
  findingsToJson,
  finiteOrNull,
  headlineToJson,
  levelsToJson,
} from "../view/table/index.ts";
import type { RunOutcome } from "./simulate.ts";
import { shareWithoutDrive, undriven, withoutDriveWhy } from "./without-drive.ts";

const secondsPerDay = 86400;

/** The summary of a run, as `--json` gives it. */
export type RunSummary = ReturnType<typeof runSummary>;

/**
 * Sums a run up: what was computed, what is true, what the estimators make of the readings.
 *
 * @param name - name of the scenario
 * @param outcome - what the run came to
 */
export function runSummary(
  name: string,
  scenario: Scenario,
  options: RunOptions,
  outcome: RunOutcome,
  files: Readonly<Record<string, string>>,
  warnings: readonly Warning[],
) {
  const record = outcome.record.read();
  const isEnough = hasEstimates(scenario, record);
  const slipUnit = 1 / scenario.clock.stepsPerTick;
  const share = scenario.counter.input === "clock" ? shareWithoutDrive(outcome) : null;
  const { bound, cause } = timeBaseBound(scenario);
  const rates = isEnough
    ? cleanedRates(runReadings(scenario, record), slipUnit, {
        systematicBound: bound,
      })
    : null;
  const found = rates?.estimates ?? [];
  const race = raceOfScenario(scenario);
  const estimates = found.map((estimate) =>
    share === null ? unraced(estimate, race) : undriven(estimate, share),
  );
  const fit = share === null ? (rates?.fit ?? null) : null;
  const truths = isEnough ? estimateTruths(scenario, record) : null;
  return {
    schema_version: 1,
    scenario: name,
    title: scenario.title,
    seed: options.seed,
    recording: options.recording,
    length_s: outcome.length,
    ticks: outcome.ticks,
    readings: outcome.readings,
    nominal_period_s: nominalPeriod(scenario),
    truth: truthOf(scenario, outcome),
    estimates: estimates.map((estimate) =>
      withTruth(
        estimate,
        // The best fit is about what the edges themselves gained.
        truths![estimate.method],
      ),
    ),
    headline: headlineToJson(fit && headlineOf(fit, bound, cause)),
    levels: levelsToJson(fit?.levels ?? []),
    notes: findingsToJson(fit?.findings ?? []),
    systematic_cause: cause,
    files,
    warnings:
      share === null
        ? warnings
        : [...warnings, { code: "hardly_driven", path: "drive", message: withoutDriveWhy(share) }],
  };
}

/** Whether there are readings enough for an estimate. */
function hasEstimates(
  { counter }: Scenario,
  { interval }: ReturnType<RunOutcome["record"]["read"]>,
) {
  const count = interval.filter((length) => !Number.isNaN(length)).length;
  return count >= (counter.technique === "time_interval" ? 2 : 1);
}

/** What is true in the simulated world, for comparison with what an analysis finds. */
export function truthOf(scenario: Scenario, outcome: RunOutcome) {
  const record = outcome.record.read();
  const overall = hasEstimates(scenario, record)
    ? estimateTruths(scenario, record).end_to_end
    : { steadyRate: Number.NaN, rateOverRun: Number.NaN };
  const stepsPerSecond = scenario.clock.tickHz * scenario.clock.stepsPerTick;
  return {
    steady_rate: finiteOrNull(overall.steadyRate),
    rate_over_run: finiteOrNull(overall.rateOverRun),
    seconds_per_day: finiteOrNull(overall.rateOverRun * secondsPerDay),
    relative_to: scenario.counter.timebase === "reference" ? "reference" : "true_time",
    slips: outcome.slips.map((slip) => ({ at_s: slip.at, steps: slip.steps, cause: slip.cause })),
    slips_not_listed: outcome.slipsNotListed,
    displaced_s: outcome.displacedSteps / stepsPerSecond,
  };
}

function withTruth(estimate: RateEstimate, truth: EstimateTruth) {
  return {
    ...estimateToJson(estimate),
    truth: {
      steady_rate: finiteOrNull(truth.steadyRate),
      rate_over_run: finiteOrNull(truth.rateOverRun),
    },
  };
}
