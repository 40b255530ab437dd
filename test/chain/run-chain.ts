import { readFileSync } from "node:fs";
import type { Slip, SpeedDevices } from "../../src/chain/index.ts";
import { Simulation, settleRun } from "../../src/chain/index.ts";
import type { Recording, Scenario } from "../../src/scenario/index.ts";
import { parseScenario } from "../../src/scenario/index.ts";

/** A reading as a test wants it: copied, in plain numbers. */
export interface TakenReading {
  readonly start: number;
  readonly cycles: number;
  readonly interval: number;
  readonly timeError: number;
  readonly marks: number;
}

export interface TakenTick {
  readonly tick: number;
  readonly timeError: number;
  readonly at: number;
  readonly isFallback: boolean;
}

export interface TakenBurst {
  readonly burst: number;
  readonly startError: number;
  readonly delay: number;
  readonly outcome: number;
}

/** All that a run gave. */
export interface Taken {
  readonly readings: TakenReading[];
  readonly ticks: TakenTick[];
  readonly bursts: TakenBurst[];
  readonly slips: readonly Slip[];
  /** Spans on the clock's own oscillator: from its first to its last tick; s. */
  readonly fallback: readonly (readonly [number, number])[];
  /** Time in all such spans; s. */
  readonly fallbackTime: number;
  readonly displacedSteps: number;
  /** Ticks of the dial at the end, looked at or not. */
  readonly count: number;
}

/** What a test may ask of a run. */
export interface Asked {
  readonly seed?: string;
  readonly length?: number;
  readonly readings?: number;
  readonly recording?: Recording;
  /** Devices for speed that are switched off or on. */
  readonly devices?: Partial<SpeedDevices>;
  /** Whether ticks, bursts are taken; ticks by default where the mode has them. */
  readonly takes?: readonly ("ticks" | "bursts")[];
}

/** A demo scenario, with settings on top. */
export function demo(name: string, sets: readonly string[] = []): Scenario {
  const path = new URL(`../../scenarios/${name}.yaml`, import.meta.url);
  return parseScenario(readFileSync(path, "utf8"), name, sets).scenario;
}

/** A scenario from its text. */
export function scenarioOf(text: string, sets: readonly string[] = []): Scenario {
  return parseScenario(text, "test.yaml", sets).scenario;
}

/** Runs a scenario and keeps all it gives. */
export function runChain(scenario: Scenario, asked: Asked = {}): Taken {
  const takes = asked.takes ?? (asked.recording === "lazy" ? [] : ["ticks"]);
  const { options } = settleRun(scenario, {
    seed: asked.seed ?? scenario.seed ?? "test",
    length: asked.length ?? null,
    readings: asked.readings ?? null,
    recording: asked.recording ?? null,
    wantsTicks: takes.includes("ticks"),
    wantsBursts: takes.includes("bursts"),
  });
  const readings: TakenReading[] = [];
  const ticks: TakenTick[] = [];
  const bursts: TakenBurst[] = [];
  const simulation = new Simulation(
    scenario,
    { ...options, devices: asked.devices ?? {} },
    {
      reading: (r) =>
        readings.push({
          start: r.start.toSeconds(),
          cycles: r.cycles,
          interval: r.interval,
          timeError: r.timeError,
          marks: r.marks,
        }),
      ...(takes.includes("ticks") && {
        tick: (
          tick: number,
          timeError: number,
          edge: { instant: { toSeconds(): number }; isFallback: boolean },
        ) =>
          ticks.push({
            tick,
            timeError,
            at: edge.instant.toSeconds(),
            isFallback: edge.isFallback,
          }),
      }),
      ...(takes.includes("bursts") && {
        burst: (burst: number, startError: number, delay: number, outcome: number) =>
          bursts.push({ burst, startError, delay, outcome }),
      }),
    },
  );
  simulation.run();
  const { slips, displacedSteps, ticks: count } = simulation;
  const { fallback, fallbackTime } = slips;
  return {
    readings,
    ticks,
    bursts,
    slips: slips.slips,
    fallback,
    fallbackTime,
    displacedSteps,
    count,
  };
}
