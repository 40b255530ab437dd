/** How a rate is made from the readings to teach what that costs, in the order of tables. */
export const estimatorMethods = ["mean_of_readings", "end_to_end", "line_fit"] as const;

/** One of them. */
export type EstimatorMethod = (typeof estimatorMethods)[number];

/** Those, and the best fit, which is the answer. */
export const rateMethods = [...estimatorMethods, "best_fit"] as const;

/** One of them. */
export type RateMethod = (typeof rateMethods)[number];

/** A rate with an uncertainty that follows from the noise found in the readings. */
export interface RateEstimate {
  readonly method: RateMethod;
  /** f/f₀ − 1, positive = fast; dimensionless; NaN where the method cannot be used at all. */
  readonly rate: number;
  /** The same, in seconds gained a day. */
  readonly secondsPerDay: number;
  /** About the rate over this run: measurement noise only; dimensionless; NaN where unknown. */
  readonly standardUncertainty: number;
  /** 95 % interval for the rate over this run: the same estimator on the same edges without jitter. */
  readonly interval95: readonly [number, number];
  /** About the steady rate: the oscillator's own noise counts too; null where the method does not apply. */
  readonly steadyStandardUncertainty: number | null;
  readonly steadyInterval95: readonly [number, number] | null;
  /** Spread of single readings over √K, as if they were independent: shown so that one sees it is wrong. */
  readonly naiveStandardUncertainty: number;
  /** Standard deviation of the difference to a next run as long as this one; NaN where unknown. */
  readonly nextRunStandardDeviation: number;
  /** Half-width of what may shift the estimate and no averaging removes; dimensionless. */
  readonly systematicBound: number;
  /** Whether the method answers the question, and its intervals can be trusted. */
  readonly applies: boolean;
  readonly why: string;
  /** Why there is no steady interval though the method applies; empty where there is one. */
  readonly steadyWhy: string;
}
