/**
 * Laws of bursts between the start phases computed, by cubic interpolation at each knot (Lagrange's polynomials
 * of the nodes −1, 0, 1, 2). Moments are counted from the same crest of the tone, so that a law changes little
 * from phase to phase, and the phase after the last is the first, a period on.
 *
 * @param sums - for n start phases, evenly over a period, the weights of knots counted from its start
 * @param perPeriod - knots in a period; the last `perPeriod` weights are zero
 * @param division - parts into which each step from phase to phase is divided; integer, >= 1
 * @returns the same for n·division start phases, what comes out below zero set to zero
 *
 * Source: DLMF 3.3(ii). Exact case: weights that are a cubic of the phase.
 */
export function betweenPhases(
  sums: readonly Float64Array[],
  perPeriod: number,
  division: number,
): Float64Array[] {
  const phases = sums.length;
  const onward = sums.map((sum) => shifted(sum, perPeriod));
  const backward = shifted(sums[phases - 1]!, -perPeriod);
  const out: Float64Array[] = [];
  for (let k = 0; k < phases; k++) {
    const before = k === 0 ? backward : sums[k - 1]!;
    const first = sums[k]!;
    const second = sums[k + 1] ?? onward[k + 1 - phases]!;
    const after = sums[k + 2] ?? onward[k + 2 - phases]!;
    for (let part = 0; part < division; part++) {
      const r = part / division;
      const a = (-r * (r - 1) * (r - 2)) / 6;
      const b = ((r + 1) * (r - 1) * (r - 2)) / 2;
      const c = (-(r + 1) * r * (r - 2)) / 2;
      const d = ((r + 1) * r * (r - 1)) / 6;
      const sum = new Float64Array(first.length);
      for (let i = 0; i < sum.length; i++) {
        sum[i] = Math.max(0, a * before[i]! + b * first[i]! + c * second[i]! + d * after[i]!);
      }
      out.push(sum);
    }
  }
  return out;
}

/** The same weights so many knots later. */
function shifted(sum: Float64Array, knots: number): Float64Array {
  const out = new Float64Array(sum.length);
  if (knots > 0) out.set(sum.subarray(0, sum.length - knots), knots);
  else out.set(sum.subarray(-knots));
  return out;
}
