import { existsSync, readFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { nominalPeriod } from "../chain/index.ts";
import { type GateRace, raceOfScenario, timeBaseBound } from "../planning/index.ts";
import type { Scenario } from "../scenario/index.ts";
import { parseScenario } from "../scenario/index.ts";

/** What the descriptor beside a file of readings says of them. */
export interface Described {
  readonly nominalPeriod: number;
  readonly gate: number | null;
  readonly deadTime: number | null;
  readonly slipUnit: number;
  readonly systematicBound: number;
  readonly cause: string;
  readonly race: GateRace | null;
}

/**
 * Looks for a descriptor beside a file of readings that names it and holds the scenario it came from.
 *
 * @param path - the file
 * @returns what it says, or null where there is none of use
 */
export function describedReadings(path: string): Described | null {
  const descriptor = join(dirname(path), "datapackage.json");
  if (path === "-" || !existsSync(descriptor)) return null;
  const scenario = scenarioIn(descriptor, basename(path));
  return scenario === null ? null : describedBy(scenario);
}

/** What a scenario says of the readings of its counter. */
export function describedBy(scenario: Scenario): Described {
  const { counter, clock } = scenario;
  const period = nominalPeriod(scenario);
  const isTimeInterval = counter.technique === "time_interval";
  const { bound, cause } = timeBaseBound(scenario);
  return {
    nominalPeriod: period,
    gate: counter.gate === "single" ? (isTimeInterval ? 1 : null) : counter.gate,
    deadTime: isTimeInterval ? null : counter.deadTime,
    slipUnit: counter.input === "clock" ? 1 / clock.stepsPerTick : 1,
    systematicBound: bound,
    cause,
    race: raceOfScenario(scenario),
  };
}

function scenarioIn(descriptor: string, file: string): Scenario | null {
  try {
    const value = JSON.parse(readFileSync(descriptor, "utf8"));
    const names: unknown[] = (value.resources ?? []).map(
      (resource: { path: unknown }) => resource.path,
    );
    const provenance = value["tickwright:provenance"];
    if (!names.includes(file) || provenance?.scenario === undefined) return null;
    return parseScenario(JSON.stringify(provenance.scenario), descriptor).scenario;
  } catch {
    // A descriptor of somebody else's is no fault of the readings.
    return null;
  }
}
