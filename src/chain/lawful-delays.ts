import type { RandomStream } from "../numeric/index.ts";
import type { DriveParameters } from "../stages/drive/index.ts";
import type { ReceiverParameters } from "../stages/receiver/index.ts";
import { DelaySampler, delayLaw, delayTables } from "../stages/receiver/index.ts";

/**
 * Bursts detected one by one before their law is computed. The law costs a tenth of a second, as much as detecting some
 * 100 000; a run that has come so far mostly goes much further, or is one of many that share the law.
 */
const patience = 5000;

/**
 * The law of the delays of bursts that nothing before them bears on, once there are enough of them to be worth
 * it. How many that is depends on nothing but their number, so that a longer run begins as a shorter one.
 */
export class LawfulDelays {
  private bursts = 0;
  /** What draws the delays; null until there is a law, or if there is none. */
  sampler: DelaySampler | null = null;
  private readonly receiver: ReceiverParameters;
  private readonly drive: DriveParameters;
  private readonly stream: RandomStream;

  /**
   * @param receiver - the detector
   * @param drive - the bursts it listens to
   * @param stream - deviates of the receiver
   */
  constructor(receiver: ReceiverParameters, drive: DriveParameters, stream: RandomStream) {
    this.receiver = receiver;
    this.drive = drive;
    this.stream = stream;
  }

  /**
   * Asked once for each burst that nothing before it bears on.
   *
   * @returns what draws the burst's delay; null where it is to be detected
   */
  next(): DelaySampler | null {
    if (this.bursts < patience && ++this.bursts === patience) {
      const tables = delayTables(delayLaw(this.receiver, this.drive, Number.POSITIVE_INFINITY));
      if (tables !== null) this.sampler = new DelaySampler(tables, this.stream);
    }
    return this.sampler;
  }
}
