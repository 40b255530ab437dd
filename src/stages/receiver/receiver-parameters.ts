/** The detector in the clock: v' = (A·|sin| − v)/τ, one step a burst at the first crossing of the threshold. */
export interface ReceiverParameters {
  readonly rectifier: "full" | "half";
  /** Integration time constant τ; s, > 0. */
  readonly timeConstant: number;
  /** False: the −v is absent, and charge and noise start from zero in every burst. */
  readonly leak: boolean;
  /** Threshold; V, > 0. */
  readonly thresholdV: number;
  /** rms of the noise added to v (leak: Ornstein-Uhlenbeck with correlation time τ); V, >= 0. */
  readonly noiseV: number;
  /** Mean rate of extra steps (Poisson), each advancing the step counter by one; Hz, >= 0. */
  readonly extraStepRateHz: number;
}
