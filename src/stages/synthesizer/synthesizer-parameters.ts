import type { NoiseLevels } from "../../noise/index.ts";

/** A spurious line: a sinusoid in time error, with a random phase of the run's own. */
export interface Spur {
  /** Frequency of the line; Hz, > 0. */
  readonly frequencyHz: number;
  /** Amplitude in time error; s, >= 0. */
  readonly timeAmplitude: number;
}

/** A type-2 second-order phase-locked loop that makes a slow rate from the reference. */
export interface SynthesizerParameters {
  /** The rate asked for; Hz, > 0. */
  readonly outputHz: number;
  /** The step in which the rate can be set; Hz, > 0, or 0 where any rate can be set. */
  readonly settingStepHz: number;
  readonly loop: {
    /** Natural frequency ω/2π; Hz, > 0. */
    readonly naturalHz: number;
    /** Damping factor ζ; dimensionless, > 0. */
    readonly damping: number;
    /** Rate at which the phase detector compares; Hz, > 0. */
    readonly comparisonHz: number;
  };
  /** Noise of the loop's own oscillator running free, in fractional frequency. */
  readonly noise: NoiseLevels;
  /** White time noise of the phase detector, one-sided √S_x; s/√Hz, >= 0. */
  readonly phaseDetectorWhite: number;
  readonly spurs: readonly Spur[];
}
