import type { RandomStream } from "../../src/numeric/index.ts";

/**
 * Exact covariance of numbers that are linear in the Gaussian deviates they are made of.
 *
 * Run with all deviates 0 but one, and that 1, they are the column A_d of a matrix for which x = A·g: so
 * cov x = A·Aᵀ, with no sampling. How many deviates are drawn is found by a first run.
 *
 * @param make - makes the numbers with deviates from a stream
 * @returns the covariance, row by row, and the number of deviates
 */
export function covarianceOf(make: (stream: RandomStream) => number[]): {
  covariance: number[][];
  deviates: number;
} {
  const run = (one: number) => {
    let drawn = 0;
    const normal = () => (drawn++ === one ? 1 : 0);
    const fillNormal = (out: Float64Array, from: number, to: number) => {
      for (let i = from; i < to; i++) out[i] = normal();
    };
    const values = make({ normal, fillNormal } as unknown as RandomStream);
    return { values, drawn };
  };
  const { values: offsets, drawn: deviates } = run(-1);
  const covariance = offsets.map((_, i) => {
    if (offsets[i] !== 0) throw new Error("numbers must be linear in the deviates");
    return new Array<number>(offsets.length).fill(0);
  });
  for (let d = 0; d < deviates; d++) {
    const { values } = run(d);
    values.forEach((a, i) => {
      if (a === 0) return;
      values.forEach((b, j) => {
        covariance[i]![j]! += a * b;
      });
    });
  }
  return { covariance, deviates };
}

/** Largest difference of two covariances, in units of the standard deviations of the first. */
export function largestDifference(a: number[][], b: number[][]): number {
  let largest = 0;
  a.forEach((row, i) => {
    row.forEach((value, j) => {
      const scale = Math.sqrt(a[i]![i]! * a[j]![j]!);
      largest = Math.max(largest, Math.abs(value - b[i]![j]!) / scale);
    });
  });
  return largest;
}
