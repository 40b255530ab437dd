import type { NoiseShape } from "./noise-shape.ts";

/** Where in the chain an uncertainty arises. */
export type Stage =
  | "reference"
  | "synthesizer"
  | "drive"
  | "receiver"
  | "clock"
  | "counter"
  | "time base";

/** One cause of measurement noise: what it is and what it does to the time errors of the stamps. */
export interface NoiseTerm {
  readonly stage: Stage;
  /** In words, for tables. */
  readonly cause: string;
  readonly shape: NoiseShape;
}
