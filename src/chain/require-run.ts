import type { Recording } from "../scenario/index.ts";
import type { RunOptions } from "./simulation.ts";

/** Whole seconds that a moment can hold: 2⁵³. */
const largest = 9007199254740992;
const recordings: readonly Recording[] = ["bursts", "ticks", "lazy"];

/**
 * Refuses options by which a run would never end, or never begin.
 *
 * @param caller - name of the function that was called, for the message
 * @param options - of the run
 * @throws RangeError if the length is not > 0 s and at most 2⁵³ s, the readings asked for are no integer >= 1, neither
 *   ends the run, or the recording mode is none
 */
export function requireRun(caller: string, options: RunOptions): void {
  const { length, endsAtLength, readings, recording } = options;
  if (!(length > 0 && length <= largest)) {
    throw new RangeError(`${caller}: length must be > 0 s and at most 2^53 s, got ${length}`);
  }
  if (readings !== null && !(Number.isInteger(readings) && readings >= 1)) {
    throw new RangeError(`${caller}: readings must be an integer >= 1 or null, got ${readings}`);
  }
  if (readings === null && !endsAtLength) {
    throw new RangeError(`${caller}: readings must be given where length does not end the run`);
  }
  if (!recordings.includes(recording)) {
    throw new RangeError(
      `${caller}: recording must be one of ${recordings.join(", ")}, got ${recording}`,
    );
  }
}
