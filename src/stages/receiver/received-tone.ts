/** What the receiver has to know of the tone it is made for. */
export interface ReceivedTone {
  /** Nominal frequency of the tone; Hz, > 0. */
  readonly carrierHz: number;
  /** How far the tone is off its nominal frequency; dimensionless. */
  readonly carrierFractionalOffset: number;
  /** Length of a burst; s, > 0. */
  readonly burst: number;
  /** Peak amplitude at the receiver; V, > 0. */
  readonly amplitudeV: number;
  /** Relative rms of the amplitude from burst to burst; dimensionless, >= 0. */
  readonly amplitudeNoise: number;
}
