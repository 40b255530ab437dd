import type { NoiseType } from "./noise-type.ts";

/** One averaging time of a stability table; null where the record is too short or the statistic has no meaning. */
export interface StabilityRow {
  /** Averaging time τ = mτ₀ (with dead time: time in the gate, m gates); s. */
  readonly tauS: number;
  /** Terms averaged in the Allan deviation. */
  readonly samples: number;
  /** Equivalent degrees of freedom of the Allan deviation; null if no noise type could be told. */
  readonly degreesOfFreedom: number | null;
  /** Noise type at this averaging time; the next shorter one's where fewer than 32 values are left. */
  readonly noiseType: NoiseType | null;
  /** Overlapping Allan deviation; dimensionless. */
  readonly allanDeviation: number;
  /** Lower end of its 95 % interval; dimensionless. */
  readonly allanLow: number | null;
  /** Upper end of its 95 % interval; dimensionless. */
  readonly allanHigh: number | null;
  /** Modified Allan deviation; dimensionless. */
  readonly modifiedAllanDeviation: number | null;
  /** Time deviation; s. */
  readonly timeDeviation: number | null;
  /** Overlapping Hadamard deviation; dimensionless. */
  readonly hadamardDeviation: number | null;
  /** Maximum time interval error; s. */
  readonly mtie: number | null;
  /** What became of the bias of dead time: null without dead time, "removed", or why it was left in. */
  readonly deadTimeBias: string | null;
}

/** Choices for a stability table. */
export interface StabilityTableOptions {
  /** Averaging factors 1, 2, 4, … (default) or every one. */
  readonly factors?: "octaves" | "all";
  /** Noise types known beforehand, for the removal of dead-time bias; else by typeAt. */
  readonly noiseTypes?: readonly NoiseType[];
  /** Noise that makes most of the Allan variance at an averaging time in s; without it no interval is given. */
  readonly typeAt?: (tau: number) => NoiseType | null;
}
