import { readFileSync } from "node:fs";
import type { Sinks, SpeedDevices } from "../../src/chain/index.ts";
import { type RunOptions, Simulation } from "../../src/chain/index.ts";
import type { Recording, Scenario } from "../../src/scenario/index.ts";
import { parseScenario } from "../../src/scenario/index.ts";

/** A demo scenario, with overrides as `--set` takes them. */
export function demo(name: string, sets: readonly string[] = []): Scenario {
  const file = `scenarios/${name}.yaml`;
  return parseScenario(readFileSync(file, "utf8"), file, sets).scenario;
}

/** A clock that divides a reference with these noises to one tick a second. */
export function dividedReference(noise: string): Scenario {
  const text = `
title: Reference divided to seconds
clock: { tick_hz: 1 }
length_s: 1000
reference: { nominal_hz: 10e6, noise: { ${noise} } }
counter: { input: clock, technique: reciprocal, gate_s: 100, resolution_s: 1e-9, timebase: reference }
`;
  return parseScenario(text, "bench", []).scenario;
}

/**
 * Runs a scenario over a number of ticks.
 *
 * @returns the number of ticks
 */
export function runChain(
  scenario: Scenario,
  ticks: number,
  recording: Recording,
  sinks: Sinks = {},
  devices: Partial<SpeedDevices> = {},
): number {
  const length = ticks / scenario.clock.tickHz;
  const options: RunOptions = {
    seed: "bench",
    length,
    endsAtLength: true,
    readings: null,
    recording,
    devices,
  };
  new Simulation(scenario, options, sinks).run();
  return ticks;
}
