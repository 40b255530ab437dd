import type { EstimatorMethod, RateEstimate } from "../analysis/index.ts";
import type { ContributionKind, Method } from "../planning/index.ts";

/** A series of readings with their truth: one entry a reading. */
export interface ReadingSeries {
  /** Start of each reading; s. */
  readonly start: Float64Array;
  /** Cycles counted. */
  readonly cycles: Float64Array;
  /** Mean period read; s, NaN where there is none. */
  readonly period: Float64Array;
  /** Rate read, f/f₀ − 1; NaN where the reading gives none. */
  readonly rate: Float64Array;
  /** Rate of the same edges without jitter and counter error. */
  readonly truth: Float64Array;
  /** Rate over all of them, by the first and the last edge; NaN without a reading. */
  readonly truthOverall: number;
  /** Nominal period; s. */
  readonly nominalPeriod: number;
}

/** Spread of readings about their truth, with its 95 % interval. */
export interface Spread {
  readonly rms: number;
  readonly low: number;
  readonly high: number;
  readonly readings: number;
}

/** Stages whose noise can be switched off. */
export type NoisyStage =
  | "reference"
  | "synthesizer"
  | "drive"
  | "receiver"
  | "counter"
  | "time base";

/** One row of an uncertainty budget. */
export interface BudgetRow {
  readonly stage: string;
  readonly cause: string;
  readonly kind: ContributionKind;
  readonly fraction: number;
}

/** A course over the gate. */
export interface Course {
  readonly name: string;
  readonly fraction: Float64Array;
}

/** Gates of the same ticks, by number of periods. */
export interface GateSeries {
  readonly periods: number;
  /** Length of a gate; s. */
  readonly gate: number;
  readonly rate: Float64Array;
  readonly spread: Spread;
}

/** What is done about an edge that the counter misses. */
export type Outlier = "none" | "kept" | "dropped" | "repaired";

/** An estimate beside its truth. */
export interface JudgedEstimate extends RateEstimate {
  readonly truth: number;
}

/** A way of measuring, and how long it must last. */
export interface PlannedWay {
  readonly method: Method;
  readonly description: string;
  readonly estimator: EstimatorMethod;
  /** s; NaN where never. */
  readonly length: number;
  readonly readings: number;
  readonly limitedBy: string | null;
  readonly looksAtClock: boolean;
  readonly lengths: Float64Array;
  /** Half-width of the 95 % interval at each length; NaN where there is no reading yet. */
  readonly widths: Float64Array;
}

/** What the page may ask of its worker, and what comes back. */
export interface Tasks {
  periods: { ask: { seed: string }; answer: ReadingSeries };
  stages: {
    ask: { seed: string; off: readonly NoisyStage[]; periods: number };
    answer: {
      readonly gates: Float64Array;
      readonly courses: readonly Course[];
      readonly total: Float64Array;
      readonly rows: readonly BudgetRow[];
      readonly expected: number;
      readonly simulated: Spread;
      readonly gate: number;
    };
  };
  gates: {
    ask: { seed: string };
    answer: { readonly truth: number; readonly series: readonly GateSeries[]; length: number };
  };
  many: {
    ask: {
      seed: string;
      periods: number;
      readings: number;
      hasDeadTime: boolean;
      outlier: Outlier;
    };
    answer: {
      readonly readings: ReadingSeries;
      /** Index of the reading the missed edge fell into; −1 for none. */
      readonly outlierAt: number;
      readonly estimates: readonly JudgedEstimate[];
      /** Running mean of the readings and the half-width of its 95 % interval. */
      readonly mean: Float64Array;
      readonly halfWidth: Float64Array;
      /** Edges that the readings stand on: time and accumulated time error; s. */
      readonly edgeTime: Float64Array;
      readonly edgeError: Float64Array;
      readonly fit: { readonly intercept: number; readonly slope: number } | null;
      readonly single: Spread;
      readonly deadTime: number;
    };
  };
  plan: {
    ask: { within: number };
    answer: { readonly ways: readonly PlannedWay[]; readonly bound: number };
  };
  trial: {
    ask: { seed: string; within: number; method: Method };
    answer: {
      readonly estimate: JudgedEstimate;
      readonly length: number;
      readonly readings: number;
      readonly isWithin: boolean;
    };
  };
  bursts: {
    ask: { seed: string; burst: number };
    answer: {
      readonly time: Float64Array;
      readonly voltage: Float64Array;
      readonly tone: Float64Array;
      readonly threshold: number;
      readonly burst: number;
      /** Delays of the first bursts; s, NaN for none. */
      readonly delays: Float64Array;
      readonly phase: number;
      readonly hasNoise: boolean;
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
      readonly displaced: number;
      readonly after: number | null;
    };
  };
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
