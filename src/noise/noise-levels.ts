/**
 * The five power-law noises of one oscillator, as the rest of the program uses them.
 *
 * S_y(f) = Σ h_α f^α (one-sided, 1/Hz), except that white PM is kept as the rms time error of one edge,
 * independent from edge to edge: h2 = 4π² x_rms² / f_h (IEEE Std 1139, f_h the bandwidth).
 */
export interface NoiseLevels {
  /** White PM: rms time error of a single edge; s, >= 0. */
  readonly whitePmRms: number;
  /** Flicker PM level h1; s² (S_y = h1·f), >= 0. */
  readonly h1: number;
  /** White FM level h0; 1/Hz, >= 0. */
  readonly h0: number;
  /** Flicker FM level h-1; dimensionless, >= 0. */
  readonly hMinus1: number;
  /** Random-walk FM level h-2; Hz, >= 0. */
  readonly hMinus2: number;
  /** Upper end of the noise band f_h; Hz, > 0. Half the stage's edge rate unless the scenario says otherwise. */
  readonly bandwidthHz: number;
  /** Longest relaxation time of a flicker ladder; s, > 0. */
  readonly flickerLongest: number;
}

/** Whether there is no noise of any kind. */
export function isSilent(levels: NoiseLevels): boolean {
  const { whitePmRms, h1, h0, hMinus1, hMinus2 } = levels;
  return whitePmRms + h1 + h0 + hMinus1 + hMinus2 === 0;
}
