/** A column that grows by a value a reading. */
export class Growing {
  #values: Float64Array<ArrayBuffer> = new Float64Array(256);
  length = 0;

  push(value: number): void {
    if (this.length === this.#values.length) {
      const larger = new Float64Array(2 * this.length);
      larger.set(this.#values);
      this.#values = larger;
    }
    this.#values[this.length++] = value;
  }

  /** A copy of what is there. */
  values(): Float64Array {
    return this.#values.slice(0, this.length);
  }
}
