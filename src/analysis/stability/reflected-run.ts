/**
 * Mean squared second difference of m-sample means over one run of 3m samples, detrended and extended.
 *
 * The run's slope between the means of its halves (a middle sample is left out of both) is removed, the run is
 * extended to 9m samples by even reflection at both ends, and the second difference of three neighbouring
 * m-sample means is squared and averaged over 6m starting places.
 *
 * @param record - samples, any unit
 * @param start - first sample of the run; integer >= 0
 * @param m - averaging factor; integer >= 1, start + 3m <= record length
 * @param room - scratch space of at least 9m + 1 entries; overwritten
 * @returns ⟨(z̄_p − 2 z̄_{p+m} + z̄_{p+2m})²⟩; unit of the record squared
 *
 * Source: NIST SP 1065, section 5.2 (modified, time and Hadamard total).
 * Exact: 0 for a run that is a straight line.
 */
export function reflectedRunMeanSquare(
  record: Float64Array,
  start: number,
  m: number,
  room: Float64Array,
): number {
  const length = 3 * m;
  const half = Math.floor(length / 2);
  let rise = 0;
  for (let i = 0; i < half; i++) rise += record[start + length - 1 - i]! - record[start + i]!;
  const slope = rise / (half * (length - half));
  // room[k] is the sum of the first k samples of the extended run.
  const base = record[start]!;
  room[0] = 0;
  for (let k = 0; k < 9 * m; k++) {
    const inside = k < length ? length - 1 - k : k < 2 * length ? k - length : 3 * length - 1 - k;
    room[k + 1] = room[k]! + (record[start + inside]! - base - slope * inside);
  }
  let sum = 0;
  for (let p = 0; p < 6 * m; p++) {
    const d = room[p + 3 * m]! - room[p]! - 3 * (room[p + 2 * m]! - room[p + m]!);
    sum += d * d;
  }
  return sum / (6 * m) / (m * m);
}
