/**
 * What makes a run fast without changing the law of its readings, each to be switched off alone. With all of them off, and
 * recording `bursts` (which switches jumps off), a run is the plain chain: every stage steps from burst to burst.
 */
export interface SpeedDevices {
  /** Bursts go through the stages in rows. The same bits with and without. */
  readonly rows: boolean;
  /** Ladders of which only the sum is seen go by strides of sixteen steps. */
  readonly strides: boolean;
  /** Delays are drawn from their law, where nothing before bears on a burst, instead of detected. */
  readonly delayLaw: boolean;
  /** Processes that vanish beside the rest are left out of the loop. */
  readonly leftOut: boolean;
}

/** As runs are made. */
export const allDevices: SpeedDevices = {
  rows: true,
  strides: true,
  delayLaw: true,
  leftOut: true,
};
