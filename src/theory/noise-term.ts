import { autocorrelationAt, type Decay } from "./decay.ts";

/** A line: a sinusoid in time error at a random phase. */
export interface Line {
  /** Hz. */
  readonly frequency: number;
  /** Its variance, half the square of the amplitude; s². */
  readonly variance: number;
}

/** How the time errors that one cause leaves on the stamps hang together. */
export type NoiseShape =
  /** Independent from stamp to stamp; s². */
  | { readonly type: "white"; readonly variance: number }
  /** Stationary time error with an autocorrelation. */
  | { readonly type: "correlated"; readonly decays: readonly Decay[] }
  /** Lines, sampled at the stamps and so folded at their rate. */
  | { readonly type: "lines"; readonly lines: readonly Line[] }
  /** Accumulating: white FM, one-sided level h₀; 1/Hz. */
  | { readonly type: "white_fm"; readonly h0: number }
  /** Accumulating: relaxation processes of frequency, stationary, of equal variance each. */
  | {
      readonly type: "relaxing_fm";
      readonly variance: number;
      readonly timeConstants: Float64Array;
    }
  /** Accumulating: a random walk of frequency that starts from zero; diffusion in 1/s. */
  | { readonly type: "random_walk_fm"; readonly diffusion: number };

/** One cause of measurement noise: what it is and what it does to the time errors of the stamps. */
export interface NoiseTerm {
  /** Where in the chain it arises, as tables name it: a stage, or the time base. */
  readonly stage: string;
  /** In words, for tables. */
  readonly cause: string;
  readonly shape: NoiseShape;
}

/**
 * Variance of the time error that a term leaves on a single edge.
 *
 * @param term - the term
 * @returns s²; 0 for what accumulates
 */
export function ownVariance({ shape }: NoiseTerm): number {
  switch (shape.type) {
    case "white":
      return shape.variance;
    case "correlated":
      return autocorrelationAt(shape.decays, 0);
    case "lines":
      return shape.lines.reduce((sum, line) => sum + line.variance, 0);
    default:
      return 0;
  }
}
