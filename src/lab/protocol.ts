import type { EstimatorMethod } from "../judgement/index.ts";
import type { Method } from "../planning/index.ts";

/** Stages whose noise can be switched off. */
export type NoisyStage =
  | "reference"
  | "synthesizer"
  | "drive"
  | "receiver"
  | "counter"
  | "time base";

/** Scatter of readings about their steady course, with its 95 % interval. */
export interface Spread {
  readonly rms: number;
  readonly low: number;
  readonly high: number;
  readonly readings: number;
}

/** Gates of the same ticks. */
export interface GateSpread {
  /** Length in units of the gate, and in s. */
  readonly units: number;
  readonly gate: number;
  readonly spread: Spread;
  /** The scatter by theory. */
  readonly theory: number;
}

/** A way of measuring, and how long it must last. */
export interface PlannedWay {
  readonly method: Method;
  readonly description: string;
  readonly looksAtClock: boolean;
  /** For the rate over the run itself, and for the rate in the long run; s, NaN where never. */
  readonly overRun: number;
  readonly longRun: number;
  /** Readings of the long run. */
  readonly readings: number;
  /** What stands in the way of the long run; null where nothing does. */
  readonly limitedBy: string | null;
  readonly lengths: Float64Array;
  /** Half-width of the 95 % interval of the long run's rate at each length; NaN where there is no reading yet. */
  readonly widths: Float64Array;
}

/** Intervals of a hundred runs by one estimator, or of the mean by s/√K. */
export interface RunIntervals {
  readonly of: EstimatorMethod | "naive";
  /** Rate found, half-width of its 95 % interval with the systematic bound, and the rate over the same run. */
  readonly rate: Float64Array;
  readonly half: Float64Array;
  readonly truth: Float64Array;
}

/** One burst as the engine met it, and the first of its run. */
export interface BurstAsMet {
  readonly time: Float64Array;
  readonly voltage: Float64Array;
  readonly tone: Float64Array;
  readonly threshold: number;
  readonly burst: number;
  /** Delays of the first bursts, and how late each began; s, NaN for none. */
  readonly delays: Float64Array;
  readonly late: Float64Array;
  readonly phase: number;
  readonly hasNoise: boolean;
}

/** What keeps a long run from knowing the rate. */
export type Limit = "timebase" | "oscillator" | "temperature";

/** What the page may ask of its worker, and what comes back. */
export interface Tasks {
  ticks: {
    ask: { seed: string; count: number };
    answer: {
      /** How late each edge is as the counter stamps it, against an even grid from the first; s, count + 1 values. */
      readonly late: Float64Array;
      /** Nominal period, and what one edge scatters by in theory; s. */
      readonly period: number;
      readonly edgeRms: number;
      /** Rate in the long run. */
      readonly longRun: number;
      /** What a tick passes on to the next, over what is its own: wandering of the oscillator over noise of edges. */
      readonly carried: number;
    };
  };
  periods: {
    ask: { seed: string };
    answer: {
      readonly start: Float64Array;
      /** Mean period read; s. */
      readonly period: Float64Array;
      /** Rate read; NaN where the reading gives none. */
      readonly rate: Float64Array;
      readonly longRun: number;
      /** Rms of a single one about the long run's rate, by theory. */
      readonly theory: number;
    };
  };
  stages: {
    ask: { seed: string; off: readonly NoisyStage[]; units: number };
    answer: {
      readonly gates: Float64Array;
      /** What each stage adds: root of what is gone where it is silent; in the order of the chain. */
      readonly courses: readonly { readonly stage: NoisyStage; readonly fraction: Float64Array }[];
      readonly total: Float64Array;
      /** The same at the gate asked for. */
      readonly shares: readonly number[];
      readonly expected: number;
      readonly simulated: Spread;
      readonly gate: number;
    };
  };
  gates: { ask: { seed: string }; answer: { readonly gates: readonly GateSpread[] } };
  hundred: {
    ask: { seed: string; units: number; readings: number; hasDeadTime: boolean };
    answer: {
      readonly intervals: readonly RunIntervals[];
      readonly longRun: number;
      readonly length: number;
    };
  };
  averaging: {
    ask: Record<string, never>;
    answer: {
      readonly lengths: Float64Array;
      readonly courses: readonly {
        readonly of: "clock" | "own" | "ideal";
        readonly width: Float64Array;
        /** What is left of each width without the noise of edges: the largest part of it. */
        readonly limits: readonly Limit[];
      }[];
    };
  };
  plan: {
    ask: { within: number };
    answer: {
      readonly ways: readonly PlannedWay[];
      readonly bound: number;
      readonly swing: number;
    };
  };
  trial: {
    ask: { seed: string; readings: number; method: Method };
    answer: {
      readonly rate: number;
      readonly longRun: number;
      readonly length: number;
      readonly readings: number;
    };
  };
  bursts: {
    ask: { seed: string; burst: number };
    answer: BurstAsMet & {
      /** Scatter of the delay by theory; s. */
      readonly theory: number;
    };
  };
  motion: {
    ask: { seed: string; tick: number };
    answer: {
      /** The burst that makes the tick; null where there are none. */
      readonly burst: BurstAsMet | null;
      /** How late each of the first edges is as the counter stamps it; s. */
      readonly late: Float64Array;
      readonly period: number;
      readonly burstsPerTick: number;
    };
  };
  loss: {
    ask: { seed: string; lasts: number };
    answer: {
      readonly time: Float64Array;
      readonly timeError: Float64Array;
      readonly fallback: readonly { readonly from: number; readonly to: number }[];
      readonly ticksOfFallback: number;
      readonly lostAt: number;
      /** Whether chance decides if a burst or a tick of the own oscillator comes first when the drive is back. */
      readonly isRace: boolean;
      readonly displaced: number;
    };
  };
  class: {
    ask: {
      word: string;
      name: string;
      runs: readonly (readonly [units: number, readings: number])[];
    };
    answer: {
      readonly found: readonly {
        readonly rates: readonly { readonly method: EstimatorMethod; readonly rate: number }[];
        readonly scatter: number;
      }[];
    };
  };
  /** What a class was to find, and the half-width that the best way reaches. */
  truth: { ask: { word: string }; answer: { readonly truth: number; readonly best: number } };
  download: { ask: { seed: string }; answer: { readonly csv: Blob; readonly readings: number } };
}

/** Name of a task. */
export type TaskName = keyof Tasks;

/** A question to the worker. A newer one of the same lane makes an older one void. */
export interface Question<T extends TaskName = TaskName> {
  readonly id: number;
  readonly lane: string;
  readonly task: T;
  readonly ask: Tasks[T]["ask"];
}

/** What the worker says. */
export type Message =
  | { readonly type: "progress"; readonly id: number; readonly share: number }
  | { readonly type: "answer"; readonly id: number; readonly answer: unknown }
  | { readonly type: "void"; readonly id: number }
  | { readonly type: "failure"; readonly id: number; readonly message: string };
