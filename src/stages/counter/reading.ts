import { Edge } from "../../kernel/index.ts";
import { Instant } from "../../numeric/index.ts";

/** One reading of the counter, with the edges it was taken between. Used again for the next one. */
export class Reading {
  /** Number of the reading, from 0. */
  index = 0;
  /** Counter time at which it began. */
  readonly start = new Instant();
  /** Cycles counted. */
  cycles = 0;
  /** Counter time those cycles took; s. NaN where no edge fell into the gate. */
  interval = 0;
  /**
   * Time error gained over the reading, cycles·T − interval, taken part by part: good to the resolution of
   * time, whatever the gate. By the technique `time_interval`, the time error at the stop edge itself; s.
   */
  timeError = 0;
  /** What happened inside the gate; bits of `mark`. */
  marks = 0;
  /** The edges between which the truth of this reading lies. */
  readonly from = new Edge();
  readonly to = new Edge();
}

/** Takes readings as they come. */
export type ReadingSink = (reading: Reading) => void;
