interface Group {
  count: number;
  /** Finest step; power of ten. */
  step: number;
  /** Sum of 1/size². */
  inverse: number;
}

/**
 * Digits as they were written, over many numbers: the finest step among those of one power of ten. A display of so many
 * digits has a coarser step above a power of ten than below it; who leaves out zeros at the end has written as many as
 * the others of that size.
 */
export class WrittenDigits {
  readonly #groups = new Map<number, Group>();

  /**
   * Takes one number.
   *
   * @param size - its absolute value
   * @param lead - power of ten of its first digit that is not 0
   * @param step - power of ten of its last digit
   */
  add(size: number, lead: number, step: number): void {
    const inverse = 1 / (size * size);
    const group = this.#groups.get(lead);
    if (group === undefined) {
      this.#groups.set(lead, { count: 1, step, inverse });
      return;
    }
    group.count++;
    group.inverse += inverse;
    if (step < group.step) group.step = step;
  }

  /** Step of the last digit, rms over the numbers; of their unit, or relative to each of them; 0 without numbers. */
  rmsStep(isRelative: boolean): number {
    let square = 0;
    let total = 0;
    for (const { count, step, inverse } of this.#groups.values()) {
      square += (isRelative ? inverse : count) * Number(`1e${step}`) ** 2;
      total += count;
    }
    return total === 0 ? 0 : Math.sqrt(square / total);
  }
}
