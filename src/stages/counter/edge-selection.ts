import { pow } from "../../numeric/index.ts";
import {
  errorAt as at,
  errorCells as cells,
  type ErrorLaw,
  gaussianLaw,
  errorReach as reach,
  errorWidth as width,
} from "./error-law.ts";

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
  /** Mean square of what a reading over the first wait is off by: difference of its errors over its length; dimensionless. */
  readonly meanSquare: number;
  /** Mean error of the very first edge taken in a run; s. */
  readonly firstMean: number;
  /** Its variance; s². */
  readonly firstVariance: number;
}

/** Rounds of waits within which the distribution of errors has settled. */
const rounds = 40;
/** Edges closer than this part of σ are passed in groups. */
const finest = 0.01;

/** Mean, variance and so on after one wait, in units of σ, with the new distribution. */
interface Outcome {
  readonly distribution: Float64Array;
  readonly mean: number;
  readonly variance: number;
  readonly covariance: number;
  readonly edges: number;
  /** Mean square of the difference of the errors, each over its number of edges. */
  readonly perEdge: number;
}

/**
 * Errors of the edges that a counter takes which waits from edge to edge: the first edge at least a set time
 * after the last one taken.
 *
 * Edge j is at j·P + g_j, g_j independent and of one law. Of edges within reach of the end of the wait the first
 * that happens to be late enough is taken: a late edge is caught more readily than an early one. That matters
 * where the wait is a whole number of periods, within the noise, or where many edges lie within the noise; a
 * stamp is then late on the average, and scatters less.
 *
 * @param waits - the waits, in turn; s, >= 0
 * @param period - P; s, > 0
 * @param sigma - rms of g; s, >= 0
 * @param law - distribution of g
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
  law: ErrorLaw = gaussianLaw,
  isAnchored = false,
): EdgeSelection {
  if (!isChoice(waits, period, sigma)) return withoutChoice(waits, period, sigma);

  const spacing = period / sigma;
  const first = afterWait(law, startAtZero(), 0, spacing);
  let distribution = first.distribution;
  let settled: Outcome[] = [];
  // Among many edges, and after a wait far longer than the noise, nothing is left of the error before.
  const isForgetful = spacing < 0.1 && waits.every((wait) => wait > 3 * reach * sigma);
  if (isForgetful) {
    settled = waits.map((wait) => {
      const outcome = afterWait(law, startAtZero(), wait / sigma, spacing);
      return { ...outcome, covariance: 0, edges: outcome.edges + outcome.mean / spacing };
    });
  }
  for (let round = 0; round < rounds && !isForgetful; round++) {
    const before = settled.at(-1)?.mean ?? Infinity;
    settled = waits.map((wait) => {
      const from = isAnchored ? startAtZero() : distribution;
      const outcome = afterWait(law, from, wait / sigma, spacing);
      distribution = outcome.distribution;
      return outcome;
    });
    if (Math.abs(settled.at(-1)!.mean - before) < 1e-6) break;
  }
  const unit = square(sigma);
  return {
    means: settled.map(({ mean }) => mean * sigma),
    variances: settled.map(({ variance }) => variance * unit),
    covariances: settled.map(({ covariance }) => covariance * unit),
    edges: settled.map(({ edges }) => edges),
    firstMean: first.mean * sigma,
    firstVariance: first.variance * unit,
    meanSquare: (isForgetful ? overLength(settled) : settled[0]!.perEdge) / square(spacing),
  };
}

/** Among many edges one reading is as long as another. */
function overLength(settled: readonly Outcome[]): number {
  const [stop, start] = [settled[0]!, settled.at(-1)!];
  return (stop.variance + start.variance + square(stop.mean - start.mean)) / square(stop.edges);
}

/**
 * The same where the period takes several values in turn, as a clock's does in the course of a day: averages over
 * them.
 *
 * @param waits - the waits, in turn; s, >= 0
 * @param periods - values of P, equally often; s, > 0
 * @param sigma - rms error of an edge; s, >= 0
 * @param law - distribution of the errors
 * @returns average errors
 */
export function averageSelection(
  waits: readonly number[],
  periods: readonly number[],
  sigma: number,
  law: ErrorLaw = gaussianLaw,
): EdgeSelection {
  const all = periods.map((period) => edgeSelection(waits, period, sigma, law));
  const average = (of: (selection: EdgeSelection) => number) =>
    all.reduce((sum, selection) => sum + of(selection), 0) / all.length;
  const each = (of: (selection: EdgeSelection) => readonly number[]) =>
    waits.map((_, w) => average((selection) => of(selection)[w]!));
  return {
    means: each(({ means }) => means),
    variances: each(({ variances }) => variances),
    covariances: each(({ covariances }) => covariances),
    edges: each(({ edges }) => edges),
    firstMean: average(({ firstMean }) => firstMean),
    firstVariance: average(({ firstVariance }) => firstVariance),
    meanSquare: average(({ meanSquare }) => meanSquare),
  };
}

/**
 * Whether a counter may catch one edge or another, as their errors have it.
 *
 * @param waits - the waits, in turn; s, >= 0
 * @param period - P; s, > 0
 * @param sigma - rms error of an edge; s, >= 0
 * @returns false where each wait ends clear of every edge
 */
export function isChoice(waits: readonly number[], period: number, sigma: number): boolean {
  // Edges without error are where they are.
  if (sigma === 0) return false;
  return !waits.every((wait) => isClear(wait, period, sigma)) || period <= 4 * reach * sigma;
}

/** Whether a wait ends clear of every edge. */
export function isClear(wait: number, period: number, sigma: number): boolean {
  const apart = Math.abs(wait / period - Math.round(wait / period)) * period;
  return wait === 0 || apart > 2 * reach * sigma;
}

function withoutChoice(waits: readonly number[], period: number, sigma: number): EdgeSelection {
  const zero = waits.map(() => 0);
  const rounded = 1 - 1e-15;
  const edges = waits.map((wait) => Math.max(1, Math.ceil((wait / period) * rounded)));
  return {
    means: zero,
    variances: waits.map(() => sigma * sigma),
    covariances: zero,
    edges,
    firstMean: 0,
    firstVariance: sigma * sigma,
    meanSquare: 2 * square(sigma / (edges[0]! * period)),
  };
}

const square = (x: number): number => x * x;

/** All probability at error 0. */
function startAtZero(): Float64Array {
  const distribution = new Float64Array(cells);
  distribution[cells / 2 - 1] = 0.5;
  distribution[cells / 2] = 0.5;
  return distribution;
}

function afterWait(
  { density, above, meanAbove, squareAbove }: ErrorLaw,
  before: Float64Array,
  wait: number,
  spacing: number,
): Outcome {
  const group = Math.max(1, Math.floor(finest / spacing));
  // How probable it is that an edge is taken if its error exceeds the lower end of each cell.
  const entered = new Float64Array(cells + 1);
  let edges = 0;
  let product = 0;
  let meanBefore = 0;
  let perEdge = 0;
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
      const place = Math.min(cells, Math.max(0, (reach - late) / width));
      const whole = Math.min(cells - 1, Math.floor(place));
      const part = place - whole;
      const taken = above[whole]! + part * (above[whole + 1]! - above[whole]!);
      // Of a group each edge has its chance; the first taken ends it.
      const passed = group === 1 ? 1 - taken : pow(1 - taken, group);
      const share = taken > 0 ? (left * (1 - passed)) / taken : 0;
      entered[whole] = entered[whole]! + share * (1 - part);
      entered[whole + 1] = entered[whole + 1]! + share * part;
      const meanTaken = meanAbove[whole]! + part * (meanAbove[whole + 1]! - meanAbove[whole]!);
      product += error * share * meanTaken;
      edges += edge * share * taken;
      const squareTaken =
        squareAbove[whole]! + part * (squareAbove[whole + 1]! - squareAbove[whole]!);
      const apart = squareTaken - 2 * error * meanTaken + error * error * taken;
      perEdge += (share * apart) / (edge * edge);
      left *= passed;
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
    variance += distribution[cell]! * square(at(cell) - mean);
  }
  return { distribution, mean, variance, covariance: product - meanBefore * mean, edges, perEdge };
}
