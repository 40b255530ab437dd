/**
 * The clock's step counter: a contact closes after every `stepsPerTick` steps.
 */
export class StepCounter {
  private stepsMade = 0;
  private ticksMade = 0;
  readonly stepsPerTick: number;

  /** @throws RangeError unless stepsPerTick is an integer of at least 1 */
  constructor(stepsPerTick: number) {
    if (!Number.isInteger(stepsPerTick) || stepsPerTick < 1) {
      throw new RangeError(
        `StepCounter: stepsPerTick must be an integer >= 1, got ${stepsPerTick}`,
      );
    }
    this.stepsPerTick = stepsPerTick;
  }

  /** Steps since the last tick; may be negative after steps were lost. */
  get steps(): number {
    return this.stepsMade;
  }

  /** Ticks since the start of the run. */
  get ticks(): number {
    return this.ticksMade;
  }

  /** Steps still missing to the next tick. */
  get missing(): number {
    return this.stepsPerTick - this.stepsMade;
  }

  /** Takes steps and returns how many ticks they made. */
  advance(steps: number): number {
    const total = this.stepsMade + steps;
    const made = total < this.stepsPerTick ? 0 : Math.floor(total / this.stepsPerTick);
    this.stepsMade = total - made * this.stepsPerTick;
    this.ticksMade += made;
    return made;
  }

  /** Loses a step. */
  lose(): void {
    this.stepsMade--;
  }

  /** Ticks that no step made (the fallback's own) clear the steps that were under way. */
  tickAndClear(ticks: number): void {
    this.ticksMade += ticks;
    this.stepsMade = 0;
  }
}
