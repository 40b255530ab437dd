/** A point of the envelope of a burst: between points the level is straight. */
export interface EnvelopeKnot {
  /** Time after the edge that opens the burst; s, rising. */
  readonly at: number;
  /** Level, as a part of the amplitude; dimensionless, >= 0. */
  readonly level: number;
}

/** What the receiver has to know of the tone it is made for. */
export interface ReceivedTone {
  /** Nominal frequency of the tone; Hz, > 0. */
  readonly carrierHz: number;
  /** How far the tone is off its nominal frequency; dimensionless. */
  readonly carrierFractionalOffset: number;
  /** The course of the amplitude through a burst, from 0 s to its end; two knots or more. */
  readonly envelope: readonly EnvelopeKnot[];
  /** Peak amplitude at the receiver; V, > 0. */
  readonly amplitudeV: number;
  /** Relative rms of the amplitude from burst to burst; dimensionless, >= 0. */
  readonly amplitudeNoise: number;
}

/** A tone and how it comes, burst after burst. */
export interface DrivenTone extends ReceivedTone {
  /** Whether the tone runs on from burst to burst, or begins each one at phase zero. */
  readonly carrierLock: "free" | "locked";
  /** Probability that a burst does not arrive at all. */
  readonly dropProbability: number;
}

/** How long a burst lasts; s. */
export const burstLength = ({ envelope }: ReceivedTone): number => envelope.at(-1)!.at;
