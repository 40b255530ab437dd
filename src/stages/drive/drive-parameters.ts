/** A point of the envelope of a burst: between points the level is straight. */
export interface EnvelopeKnot {
  /** Time after the edge that opens the burst; s. */
  readonly at: number;
  /** Level, as a part of the amplitude; dimensionless. */
  readonly level: number;
}

/** Bursts of an audio tone, one opened by each edge of the synthesizer. */
export interface DriveParameters {
  /** Frequency of the tone; Hz, > 0. */
  readonly carrierHz: number;
  /** How far a free tone is off its nominal frequency; dimensionless. */
  readonly carrierFractionalOffset: number;
  /** `free`: the tone runs on, whatever its phase at the edge; `locked`: every burst begins at phase zero. */
  readonly carrierLock: "free" | "locked";
  /** Length of a burst with its fall, up to where the tone is silent; s, > 0 and shorter than the burst period. */
  readonly burst: number;
  /** The course of the amplitude from the edge to the end of the burst. */
  readonly envelope: readonly EnvelopeKnot[];
  /** Peak amplitude of the tone at the receiver; V, > 0. */
  readonly amplitudeV: number;
  /** Relative rms of the amplitude, one Gaussian draw a burst; dimensionless, >= 0. */
  readonly amplitudeNoise: number;
  /** Probability that a burst does not arrive at all; 0 <= p < 1. */
  readonly dropProbability: number;
}
