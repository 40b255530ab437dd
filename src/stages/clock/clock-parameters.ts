import type { NoiseLevels } from "../../noise/index.ts";

/** Contact bounce: extra closures after each tick. */
export interface BounceParameters {
  /** Extra edges after each tick; integer >= 1. */
  readonly count: number;
  /** They fall, uniformly, within this time after the tick; s, > 0. */
  readonly within: number;
}

/** The clock's own oscillator, which takes over when the drive fails. */
export interface FallbackParameters {
  /** Silence after which it takes over; s, > 0. */
  readonly after: number;
  /** Its fractional frequency offset; dimensionless. */
  readonly fractionalOffset: number;
  readonly noise: NoiseLevels;
}

/** The step counter and contact of the clock. */
export interface ClockParameters {
  /** Nominal rate of the tick; Hz, > 0. */
  readonly tickHz: number;
  /** Steps that make a tick; integer >= 1 (1 where the chain has no receiver). */
  readonly stepsPerTick: number;
  readonly bounce: BounceParameters | null;
  readonly fallback: FallbackParameters | null;
}
