import { Matrix, solve } from "ml-matrix";
import { type Levels, poleVariance, type ReadingRecord } from "../../src/noise-model/index.ts";

/** Covariance of the source's phase at two instants, by the textbook formula of each noise. */
function phaseCovariance(levels: Levels, times: ArrayLike<number>, a: number, b: number): number {
  const s = Math.min(a, b);
  const t = Math.max(a, b);
  let sum = levels.wfm * s + (levels.rw * s * s * (3 * t - s)) / 6;
  for (let k = 0; k < times.length; k++) {
    // Integrated Ornstein-Uhlenbeck process in equilibrium.
    const T = times[k]!;
    const v = poleVariance * levels.ffm;
    sum +=
      v * T * T * ((2 * s) / T - 1 + Math.exp(-s / T) + Math.exp(-t / T) - Math.exp(-(t - s) / T));
  }
  return sum;
}

/**
 * Generalised least squares of a record with its full covariance, by a general-purpose linear library: nothing
 * here knows of filters. Readings that share an edge share its white PM.
 */
export function dense(record: ReadingRecord, levels: Levels, times: ArrayLike<number>) {
  const { length, gain, gap, gapGain, temperature } = record;
  // Observed increments between pairs of edges: each edge an instant with white PM of its own.
  const instants: number[] = [];
  const rows: { from: number; to: number; value: number; warm: number }[] = [];
  let now = 0;
  for (let i = 0; i < length.length; i++) {
    if (i === 0 || gap[i]! > 0) {
      now += gap[i]!;
      instants.push(now);
      if (i > 0 && !Number.isNaN(gapGain[i]!)) {
        const at = instants.length - 1;
        rows.push({ from: at - 1, to: at, value: gapGain[i]!, warm: 0 });
      }
    }
    now += length[i]!;
    instants.push(now);
    const at = instants.length - 1;
    if (Number.isNaN(gain[i]!)) continue;
    const warm = (temperature?.[i] ?? 0) * length[i]!;
    rows.push({ from: at - 1, to: at, value: gain[i]!, warm });
  }
  const edges = instants.length;
  const stamps = new Matrix(edges, edges);
  for (let i = 0; i < edges; i++) {
    for (let j = 0; j < edges; j++) {
      const source = phaseCovariance(levels, times, instants[i]!, instants[j]!);
      stamps.set(i, j, source + (i === j ? levels.pm : 0));
    }
  }
  const contrast = new Matrix(rows.length, edges);
  rows.forEach(({ from, to }, k) => {
    contrast.set(k, from, -1);
    contrast.set(k, to, 1);
  });
  const covariance = contrast.mmul(stamps).mmul(contrast.transpose());
  const p = temperature === undefined ? 1 : 2;
  const design = new Matrix(
    rows.map(({ from, to, warm }) => [instants[to]! - instants[from]!, warm].slice(0, p)),
  );
  const y = Matrix.columnVector(rows.map((row) => row.value));
  const weighed = solve(covariance, design);
  const normal = design.transpose().mmul(weighed);
  const inverse = solve(normal, Matrix.eye(p));
  const beta = inverse.mmul(weighed.transpose().mmul(y));
  const rest = Matrix.sub(y, design.mmul(beta));
  const squares = rest.transpose().mmul(solve(covariance, rest)).get(0, 0);
  // Best linear prediction of what the source's noise gained over the run.
  const T = instants.at(-1)!;
  const toGain = new Matrix(1, edges);
  for (let j = 0; j < edges; j++) {
    toGain.set(0, j, phaseCovariance(levels, times, T, instants[j]!));
  }
  const cross = toGain.mmul(contrast.transpose());
  const noise = cross.mmul(solve(covariance, rest)).get(0, 0);
  const known =
    phaseCovariance(levels, times, T, T) -
    cross.mmul(solve(covariance, cross.transpose())).get(0, 0);
  const reach = Matrix.sub(new Matrix([[T, 0].slice(0, p)]), cross.mmul(weighed));
  const runVariance = known + reach.mmul(inverse).mmul(reach.transpose()).get(0, 0);
  return {
    covariance,
    slope: beta.get(0, 0),
    slopeVariance: inverse.get(0, 0),
    squares,
    degrees: rows.length - p,
    overRun: (beta.get(0, 0) * T + noise) / T,
    overRunVariance: runVariance / (T * T),
    logDeterminants: logDeterminant(covariance) + logDeterminant(normal),
    duration: T,
  };
}

function logDeterminant(matrix: Matrix): number {
  // Gaussian elimination without pivoting: the matrix is positive definite.
  const m = matrix.clone();
  let sum = 0;
  for (let i = 0; i < m.rows; i++) {
    sum += Math.log(m.get(i, i));
    for (let r = i + 1; r < m.rows; r++) {
      const f = m.get(r, i) / m.get(i, i);
      if (f === 0) continue;
      for (let c = i; c < m.columns; c++) m.set(r, c, m.get(r, c) - f * m.get(i, c));
    }
  }
  return sum;
}
