/** What became of a burst that arrived. */
export const burstOutcome = {
  /** The threshold was reached inside the burst: one step. */
  step: 0,
  /** The burst ended below the threshold. */
  missed: 1,
  /** The charge of the burst before still stood above the threshold when this one began: no step. */
  blocked: 2,
} as const;

/** One of the values of `burstOutcome`. */
export type BurstOutcome = (typeof burstOutcome)[keyof typeof burstOutcome];
