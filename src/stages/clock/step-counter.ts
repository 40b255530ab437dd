/**
 * The clock's step counter: a contact closes after every `stepsPerTick` steps.
 */
export class StepCounter {
  /** Steps since the last tick; may be negative after steps were lost. */
  steps = 0;
  /** Ticks since the start of the run. */
  ticks = 0;
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

  /** Steps still missing to the next tick. */
  get missing(): number {
    return this.stepsPerTick - this.steps;
  }

  /** Takes steps and returns how many ticks they made. */
  advance(steps: number): number {
    const total = this.steps + steps;
    const made = total < this.stepsPerTick ? 0 : Math.floor(total / this.stepsPerTick);
    this.steps = total - made * this.stepsPerTick;
    this.ticks += made;
    return made;
  }

  /** A tick that no step made (the fallback's own) clears the steps that were under way. */
  tickAndClear(): void {
    this.ticks++;
    this.steps = 0;
  }
}
