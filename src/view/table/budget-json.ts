import type { Budget, GateRace } from "../../planning/index.ts";
import { finiteOrNull } from "./finite-or-null.ts";

/** Causes that programs know by an earlier name. */
const knownAs: Readonly<Record<string, string>> = {
  "start phase of the tone": "tone against rate",
  "start phase of the tone, smeared by noise": "tone against rate, smeared by jitter",
};

/** What a gate of whole periods does to the mean of readings, and the setting that does not. */
export const raceToJson = (race: GateRace | null) =>
  race && { bias: race.bias, better: race.better && { [race.better.key]: race.better.value } };

/** How simulated readings scatter, where they were. */
export interface SimulatedRms {
  readonly rms: number;
  readonly effectiveReadings: number;
  readonly readings: number;
  readonly runs: number;
  readonly interval95: readonly [number, number];
}

/**
 * An uncertainty budget as other programs read it.
 *
 * @param budget - the budget
 * @param simulated - the scatter of simulated readings, or null
 */
export function budgetToJson(budget: Budget, simulated: SimulatedRms | null) {
  return {
    schema_version: 1,
    gate_s: budget.gate,
    rows: budget.rows.map(({ stage, cause, kind, fractionOfPeriodRms }) => ({
      stage,
      cause: knownAs[cause] ?? cause,
      kind,
      fraction_of_period_rms: fractionOfPeriodRms,
      share:
        kind === "random" && budget.totalRandomRms > 0
          ? (fractionOfPeriodRms / budget.totalRandomRms) ** 2
          : null,
    })),
    total_random_rms: budget.totalRandomRms,
    simulated_random_rms: simulated === null ? null : finiteOrNull(simulated.rms),
    simulated:
      simulated === null
        ? null
        : {
            interval_95: simulated.interval95.map(finiteOrNull),
            effective_readings: finiteOrNull(simulated.effectiveReadings),
            readings: simulated.readings,
            runs: simulated.runs,
          },
    systematic_bound: budget.systematicBound,
    gate_race: raceToJson(budget.race),
  };
}
