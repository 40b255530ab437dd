import type { NoiseLevels } from "../../noise/index.ts";

/** A counter's own time base, where it does not run on the reference. */
export interface OwnTimeBase {
  /** Fractional frequency offset; dimensionless. */
  readonly fractionalOffset: number;
  /** Half-width of the bound within which the offset is known; dimensionless, >= 0. */
  readonly uncertainty: number;
  readonly noise: NoiseLevels;
}

/** A bench counter and what it looks at. */
export interface CounterParameters {
  readonly input: "clock" | "synthesizer" | "reference";
  readonly technique: "reciprocal" | "direct" | "time_interval";
  /** Gate length; s, > 0, or `single` for one period a reading. */
  readonly gate: number | "single";
  /** The longest gate the instrument offers; s, or null where nothing is said. */
  readonly gateMax: number | null;
  /** Dead time between readings; s, >= 0. 0: back to back, the stop edge is the next start edge. */
  readonly deadTime: number;
  /** Edges within this time after an accepted one are ignored; s, >= 0. */
  readonly holdoff: number;
  /** Resolution of a time stamp; s, >= 0. */
  readonly resolution: number;
  /** rms trigger noise of one edge; s, >= 0. */
  readonly triggerNoise: number;
  /** Probability that the counter misses an edge. */
  readonly missedEdgeProbability: number;
  /** Probability that the counter counts an edge twice. */
  readonly extraEdgeProbability: number;
  /** Digits of the display; integer >= 1, or null for full precision. */
  readonly displayDigits: number | null;
  readonly timebase: "reference" | OwnTimeBase;
}
