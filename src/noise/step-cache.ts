/** Steps kept at most: a chain on its nominal grid needs a handful. */
const capacity = 64;

/**
 * Keeps what belongs to a step dt, since nearly every step of a run is one of a handful of lengths.
 */
export class StepCache<T> {
  private readonly make: (dt: number) => T;
  private readonly known = new Map<number, T>();
  // The two last lengths, since a counter with dead time makes two in turn.
  private lastStep = NaN;
  private last: T | undefined;
  private earlierStep = NaN;
  private earlier: T | undefined;

  /** @param make - computes what belongs to a step dt in s */
  constructor(make: (dt: number) => T) {
    this.make = make;
  }

  /**
   * What belongs to a step, computed at most once while the step recurs.
   *
   * @param dt - step; s
   * @returns the same value as `make(dt)`
   */
  at(dt: number): T {
    if (dt === this.lastStep) {
      return this.last!;
    }
    let found = dt === this.earlierStep ? this.earlier : this.known.get(dt);
    if (found === undefined) {
      found = this.make(dt);
      if (this.known.size >= capacity) {
        // The oldest goes, so that a run of ever new steps stays within its memory.
        for (const oldest of this.known.keys()) {
          this.known.delete(oldest);
          break;
        }
      }
      this.known.set(dt, found);
    }
    this.earlierStep = this.lastStep;
    this.earlier = this.last;
    this.lastStep = dt;
    this.last = found;
    return found;
  }
}
