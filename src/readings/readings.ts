/** Time stamps of readings, from the first one on. */
export interface Stamps {
  /** When each reading arrived, by another clock and late by a delay of its own; K values, s, NaN = unknown. */
  readonly arrival: Float64Array;
  /** Step in which they are written; s, > 0. */
  readonly resolution: number;
}

/** What a log tells beside its readings; each left out where it does not. */
export interface Logged {
  /** Line of each reading, 0 where a gap in the stamps shows that one is missing; K values. */
  readonly line?: Int32Array;
  readonly stamps?: Stamps;
  /** Readings with which another record begins, joined to the one before at an unknown phase; ascending, each > 0. */
  readonly joins?: readonly number[];
  /** Temperature at each reading; K values, °C, NaN where missing. */
  readonly temperature?: Float64Array;
  /**
   * Relative step of the last digit written, rms over the readings (of a time error the step itself, in s): the least
   * difference that the log can show; > 0.
   */
  readonly resolution?: number;
}

/** Readings of a period: each the mean over a number of cycles, back to back or with dead time between. */
export interface PeriodReadings extends Logged {
  readonly kind: "period";
  /** Mean period of each reading; K values, s; NaN = missing (a gap, kept as a gap). */
  readonly period: Float64Array;
  /** Cycles in each reading; K values, integers where they were counted; NaN where the reading is missing. */
  readonly cycles: Float64Array;
  /** Gate, where it was said and no column tells the cycles, which then follow from it; s, > 0. */
  readonly gate?: number;
  /** Change of the slope if the counter kept to one number of cycles, where that cannot be told; dimensionless. */
  readonly countDoubt?: number;
  /** When the first edge of each reading fell, by the counter; K values, s, NaN = unknown; null = not recorded. */
  readonly start: Float64Array | null;
  /** Nominal period; s, > 0. */
  readonly nominalPeriod: number;
  /** Whether the last edge of each reading is the first of the next. */
  readonly backToBack: boolean;
  /** From the end of one reading to the start of the next; s, >= 0; left out where not known. */
  readonly deadTime?: number;
  /**
   * Relative rms error that rounding leaves in each reading by itself, so that it adds up over readings that share their
   * edges; dimensionless, >= 0; left out where it does not.
   */
  readonly rounding?: number;
  /** Whether they were given as fractional frequencies f/f₀ − 1, which may be of any size then. */
  readonly isRate?: boolean;
}

/** Readings of the time error itself, at evenly spaced instants. */
export interface TimeErrorReadings extends Logged {
  readonly kind: "time_error";
  /** Time error x; K values, s, positive = fast; NaN = missing (a gap, kept as a gap). */
  readonly timeError: Float64Array;
  /** Spacing of the instants; s, > 0. */
  readonly spacing: number;
  /** Period of the edges, for recognising steps of whole periods; s, > 0; left out where not known. */
  readonly nominalPeriod?: number;
}

/** A record of readings, as the analysis takes it: real or simulated, it does not know which. */
export type Readings = PeriodReadings | TimeErrorReadings;
