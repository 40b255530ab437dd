/**
 * Noise levels of a record in its own units (one of time, one of phase), up to a common variance σ² where
 * that is found from the record itself.
 */
export interface Levels {
  /** White PM: variance of the time error of one edge; phase². */
  readonly pm: number;
  /** White FM: variance that the phase gains in one unit of time; phase²/time. */
  readonly wfm: number;
  /** Flicker FM: Allan variance of its floor; (phase/time)². */
  readonly ffm: number;
  /** Random-walk FM: variance that the rate gains in one unit of time; phase²/time³. */
  readonly rw: number;
}
