/** A task was overtaken by a newer one. */
export class Overtaken extends Error {}

/** Lets a long task breathe: new questions are heard, and one that was overtaken stops. */
export interface Pace {
  /**
   * To be awaited now and then.
   *
   * @param share - how much is done; 0 … 1
   * @throws Overtaken if nobody waits for the result any more
   */
  readonly breathe: (share: number) => Promise<void>;
}

/** How long a task works before new questions are heard; ms. */
const slice = 20;

/**
 * Makes the pace of one task.
 *
 * @param isOvertaken - whether a newer question has made it void
 * @param tell - takes the share done, at most once a slice
 */
export function paceOf(isOvertaken: () => boolean, tell: (share: number) => void): Pace {
  let since = performance.now();
  return {
    async breathe(share) {
      if (performance.now() - since < slice) return;
      tell(share);
      await new Promise<void>((resume) => setTimeout(resume, 0));
      if (isOvertaken()) throw new Overtaken("overtaken by a newer question");
      since = performance.now();
    },
  };
}
