/**
 * Draws one of n outcomes of given weights with one uniform deviate, whatever n.
 *
 * The outcomes are n columns of equal width; a column is shared by its own outcome, for a part of its width,
 * and one other.
 *
 * Source: A. J. Walker, ACM Trans. Math. Softw. 3, 253 (1977); the table in one pass: M. D. Vose, IEEE
 * Trans. Softw. Eng. 17, 972 (1991).
 */
export class AliasTable {
  /** For each column the other outcome and the part that is its own, added: one number to fetch a draw. */
  private readonly columns: Float64Array;

  /**
   * @param weights - n weights, n >= 1, in any unit; >= 0, at least one > 0
   * @throws RangeError if a weight is negative or not finite, or none is positive
   */
  constructor(weights: Float64Array) {
    const n = weights.length;
    let total = 0;
    for (const weight of weights) {
      if (!(weight >= 0 && weight < Infinity)) {
        throw new RangeError(`AliasTable: weights must be finite and >= 0, got ${weight}`);
      }
      total += weight;
    }
    if (!(total > 0)) throw new RangeError("AliasTable: one weight at least must be > 0");
    // A column that is left over is all its own.
    this.columns = Float64Array.from(weights, (_, i) => i);
    const share = Float64Array.from(weights, (weight) => (weight * n) / total);
    const small: number[] = [];
    const large: number[] = [];
    for (let i = 0; i < n; i++) (share[i]! < 1 ? small : large).push(i);
    while (small.length > 0 && large.length > 0) {
      const low = small.pop()!;
      const high = large[large.length - 1]!;
      const both = high + share[low]!;
      // A part that rounds to the whole width leaves nothing to the other.
      this.columns[low] = both < high + 1 ? both : low;
      share[high] = share[high]! - (1 - share[low]!);
      if (share[high]! < 1) small.push(large.pop()!);
    }
  }

  /**
   * @param u - a uniform deviate; 0 ≤ u < 1
   * @returns index of the outcome; integer, 0 ≤ index < n
   */
  draw(u: number): number {
    const at = u * this.columns.length;
    const column = at | 0;
    const shared = this.columns[column]!;
    const other = shared | 0;
    // Below the column's own part the floor is −1, else 0: a branch would be a coin toss to the processor.
    return other + Math.floor(at - column - (shared - other)) * (other - column);
  }
}
