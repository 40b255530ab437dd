/** Readings of a clock as the model takes them, in the order of time; K of each. */
export interface ReadingRecord {
  /** Nominal length of each reading, its cycles times the nominal period; s, > 0. */
  readonly length: Float64Array;
  /** What the time error gained over each reading, by the counter; s, NaN = unknown. */
  readonly gain: Float64Array;
  /** From the last edge of the reading before to the first edge of this one; s, 0 = one and the same edge. */
  readonly gap: Float64Array;
  /** What the time error gained over that gap, where its cycles are known; s, NaN = unknown. */
  readonly gapGain: Float64Array;
  /** 1 where the last edge of a reading is an outlier by itself, so that it is passed over; left out where none is. */
  readonly unseen?: Uint8Array;
  /** Whether a reading may be missing without a trace: no time tells; left out where one does. */
  readonly mayLackReadings?: boolean;
  /** Mean temperature in each reading less its mean over the run; K; left out where no coefficient is to be found. */
  readonly temperature?: Float64Array;
}
