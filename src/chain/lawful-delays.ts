import type { DriveParameters } from "../drive/drive-parameters.ts";
import type { RandomStream } from "../numeric/random-stream.ts";
import { type BurstDelayLaw, burstDelayLaw } from "../receiver/burst-delay-law.ts";
import { DelaySampler } from "../receiver/delay-sampler.ts";
import type { ReceiverParameters } from "../receiver/receiver-parameters.ts";

/**
 * Bursts detected one by one before their law is computed. The law costs a tenth of a second, as much as detecting some
 * 100 000; a run that has come so far mostly goes much further, or is one of many that share the law.
 */
const patience = 5000;

/** Laws computed so far: runs of one receiver and drive share theirs. */
const known = new WeakMap<
  ReceiverParameters,
  { drive: DriveParameters; law: BurstDelayLaw | null }
>();

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
      const law = this.law();
      if (law !== null) this.sampler = new DelaySampler(law, this.stream);
    }
    return this.sampler;
  }

  private law(): BurstDelayLaw | null {
    const { receiver, drive } = this;
    const found = known.get(receiver);
    if (found?.drive === drive) return found.law;
    const law = burstDelayLaw(receiver, drive, drive.carrierLock === "locked");
    known.set(receiver, { drive, law });
    return law;
  }
}
