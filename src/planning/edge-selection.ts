import { normalCdf } from "../numeric/normal-cdf.ts";

/** Which edges a counter catches that waits from stamp to stamp, and how late they are. */
export interface EdgeSelection {
  /** Mean error of the edges that end each wait, against their even grid; s, positive = late. */
  readonly means: readonly number[];
  /** Their variances; s². */
  readonly variances: readonly number[];
  /** Covariance of the edge that begins each wait with the one that ends it; s². */
  readonly covariances: readonly number[];
  /** Average number of edges from one taken to the next. */
  readonly edges: readonly number[];
  /** Mean error of the very first edge taken in a run; s. */
  readonly firstMean: number;
  /** Its variance; s². */
  readonly firstVariance: number;
  /** How the difference of the first and the last of the means varies where conditions do: its variance; s². */
  readonly wander: number;
}

/** Errors are followed from −8σ to 8σ in cells of 0.08σ. */
const reach = 8;
const cells = 200;
const width = (2 * reach) / cells;
const at = (cell: number) => -reach + (cell + 0.5) * width;
/** Rounds of waits within which the distribution of errors has settled. */
const rounds = 40;
/** Edges closer than this part of σ are passed in groups. */
const finest = 0.01;

const density = Float64Array.from({ length: cells }, (_, cell) => {
  const x = at(cell);
  return (Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI)) * width;
});

/** Mean, variance and so on after one wait, in units of σ, with the new distribution. */
interface Outcome {
  readonly distribution: Float64Array;
  readonly mean: number;
  readonly variance: number;
  readonly covariance: number;
  readonly edges: number;
}

/**
 * Errors of the edges that a counter takes which waits from edge to edge: the first edge at least a set time
 * after the last one taken.
 *
 * Edge j is at j·P + g_j, g_j independent and Gaussian. Of edges within reach of the end of the wait the first
 * that happens to be late enough is taken: a late edge is caught more readily than an early one. That matters
 * where the wait is a whole number of periods, within the noise, or where many edges lie within the noise; a
 * stamp is then late on the average, and scatters less.
 *
 * @param waits - the waits, in turn; s, >= 0
 * @param period - P; s, > 0
 * @param sigma - rms of g; s, >= 0
 * @param isAnchored - the waits end at set times, not at set times after the last edge
 * @returns errors of the stamps in the settled state, one entry a wait
 *
 * Source: own derivation: the distribution of the error is carried from stamp to stamp until it settles.
 * Exact case: a wait far from any whole number of periods leaves mean 0 and variance σ².
 */
export function edgeSelection(
  waits: readonly number[],
  period: number,
  sigma: number,
  isAnchored = false,
): EdgeSelection {
  const isClear = waits.every((wait) => {
    const apart = Math.abs(wait / period - Math.round(wait / period)) * period;
    return wait === 0 || apart > 2 * reach * sigma;
  });
  if (isClear && period > 4 * reach * sigma) return withoutChoice(waits, period, sigma);

  const spacing = period / sigma;
  const first = afterWait(startAtZero(), 0, spacing);
  let distribution = first.distribution;
  let settled: Outcome[] = [];
  // Among many edges, and after a wait far longer than the noise, nothing is left of the error before.
  const isForgetful = spacing < 0.1 && waits.every((wait) => wait > 3 * reach * sigma);
  if (isForgetful) {
    settled = waits.map((wait) => {
      const outcome = afterWait(startAtZero(), wait / sigma, spacing);
      return { ...outcome, covariance: 0, edges: outcome.edges + outcome.mean / spacing };
    });
  }
  for (let round = 0; round < rounds && !isForgetful; round++) {
    const before = settled.at(-1)?.mean ?? Infinity;
    settled = waits.map((wait) => {
      const from = isAnchored ? startAtZero() : distribution;
      const outcome = afterWait(from, wait / sigma, spacing);
      distribution = outcome.distribution;
      return outcome;
    });
    if (Math.abs(settled.at(-1)!.mean - before) < 1e-6) break;
  }
  const square = sigma * sigma;
  return {
    means: settled.map(({ mean }) => mean * sigma),
    variances: settled.map(({ variance }) => variance * square),
    covariances: settled.map(({ covariance }) => covariance * square),
    edges: settled.map(({ edges }) => edges),
    firstMean: first.mean * sigma,
    firstVariance: first.variance * square,
    wander: 0,
  };
}

/**
 * The same where the period takes several values in turn, as a clock's does in the course of a day: averages over
 * them.
 *
 * @param waits - the waits, in turn; s, >= 0
 * @param periods - values of P, equally often; s, > 0
 * @param sigma - rms error of an edge; s, >= 0
 * @returns average errors, `wander` the variance of their difference from value to value
 */
export function averageSelection(
  waits: readonly number[],
  periods: readonly number[],
  sigma: number,
): EdgeSelection {
  const all = periods.map((period) => edgeSelection(waits, period, sigma));
  const average = (of: (selection: EdgeSelection) => number) =>
    all.reduce((sum, selection) => sum + of(selection), 0) / all.length;
  const each = (of: (selection: EdgeSelection) => readonly number[]) =>
    waits.map((_, w) => average((selection) => of(selection)[w]!));
  const apart = ({ means }: EdgeSelection) => means[0]! - means.at(-1)!;
  const mean = average(apart);
  return {
    means: each(({ means }) => means),
    variances: each(({ variances }) => variances),
    covariances: each(({ covariances }) => covariances),
    edges: each(({ edges }) => edges),
    firstMean: average(({ firstMean }) => firstMean),
    firstVariance: average(({ firstVariance }) => firstVariance),
    wander: average((selection) => (apart(selection) - mean) ** 2),
  };
}

function withoutChoice(waits: readonly number[], period: number, sigma: number): EdgeSelection {
  const zero = waits.map(() => 0);
  const rounded = 1 - 1e-15;
  return {
    means: zero,
    variances: waits.map(() => sigma * sigma),
    covariances: zero,
    edges: waits.map((wait) => Math.max(1, Math.ceil((wait / period) * rounded))),
    firstMean: 0,
    firstVariance: sigma * sigma,
    wander: 0,
  };
}

/** All probability at error 0. */
function startAtZero(): Float64Array {
  const distribution = new Float64Array(cells);
  distribution[cells / 2 - 1] = 0.5;
  distribution[cells / 2] = 0.5;
  return distribution;
}

function afterWait(before: Float64Array, wait: number, spacing: number): Outcome {
  const group = Math.max(1, Math.floor(finest / spacing));
  // How probable it is that an edge is taken if its error exceeds the lower end of each cell.
  const entered = new Float64Array(cells + 1);
  let edges = 0;
  let product = 0;
  let meanBefore = 0;
  for (let cell = 0; cell < cells; cell++) {
    const probability = before[cell]!;
    if (probability < 1e-14) continue;
    const error = at(cell);
    meanBefore += probability * error;
    const target = wait + error;
    let edge = Math.max(1, Math.ceil((target - reach) / spacing));
    let left = probability;
    while (left > 1e-12 * probability) {
      const late = edge * spacing - target;
      const taken = late > reach ? 1 : normalCdf(late);
      // Of a group each edge has its chance; the first taken ends it.
      const passed = group === 1 ? 1 - taken : (1 - taken) ** group;
      const share = late > reach ? left : (left * (1 - passed)) / taken;
      const place = Math.min(cells, Math.max(0, (reach - late) / width));
      const whole = Math.floor(place);
      entered[whole] = entered[whole]! + share * (1 - (place - whole));
      if (whole < cells) entered[whole + 1] = entered[whole + 1]! + share * (place - whole);
      product += error * share * Math.exp((-late * late) / 2 - Math.log(2 * Math.PI) / 2);
      edges += edge * share * taken;
      left *= late > reach ? 0 : passed;
      edge += group;
    }
  }
  const distribution = new Float64Array(cells);
  let total = 0;
  let open = 0;
  let mean = 0;
  for (let cell = 0; cell < cells; cell++) {
    open += entered[cell]!;
    distribution[cell] = open * density[cell]!;
    total += distribution[cell]!;
    mean += distribution[cell]! * at(cell);
  }
  mean /= total;
  let variance = 0;
  for (let cell = 0; cell < cells; cell++) {
    distribution[cell] = distribution[cell]! / total;
    variance += distribution[cell]! * (at(cell) - mean) ** 2;
  }
  return { distribution, mean, variance, covariance: product - meanBefore * mean, edges };
}
