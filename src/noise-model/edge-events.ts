/** A regressor of the phase, with its value at every event. */
export interface Regressor {
  /** Value at each event, from the start of its stretch; phase per unit of the coefficient. */
  readonly values: Float64Array;
  /** What one unit of the coefficient adds to the phase over the whole run; 0 for what is no part of the clock's rate. */
  readonly overRun: number;
}

/**
 * A record as the filter takes it: events in the order of time. An event ends `count` equal steps of length
 * `step` and sees the mean phase of their ends; where `starts` is set it sees nothing: it is the first edge of a
 * stretch with a scale of its own, and the phases of the stretch are counted from it.
 */
export interface EdgeEvents {
  /** Length of each of the steps before the event; time units, 0 for the first event. */
  readonly step: Float64Array;
  /** Number of those steps, a power of two. */
  readonly count: Int32Array;
  /** 1 where a stretch starts. */
  readonly starts: Uint8Array;
  /** 1 where the event is passed over: an edge that nobody saw, or whose stamp is an outlier. */
  readonly unseen: Uint8Array;
  /** Mean phase of the steps' ends, from the start of the stretch; phase units. */
  readonly phase: Float64Array;
  /** Regressors, the slope first: its value is the (mean) time since the start of the stretch. */
  readonly regressors: readonly Regressor[];
  /** From the first edge to the last; time units. */
  readonly duration: number;
}
