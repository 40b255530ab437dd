import { exp, normalCdf } from "../../numeric/index.ts";
import type { BurstPath, BurstPaths } from "./burst-path.ts";

/** What u is when a burst begins: a Gaussian; V, V². */
export interface BurstStart {
  readonly mean: number;
  readonly variance: number;
}

/** Part of a step's probability below which the memory of earlier crossings is cut off. */
const forgotten = 1e-12;

/**
 * −ζ(−½): what the rectangle rule for a kernel that begins as √lag lacks, in units of its first value
 * (generalised Euler-Maclaurin formula, Navot 1961).
 */
const endCorrection = 0.2078862249773546;

/** Time constants after which mean charge and law of the survivors have settled to 1e-5. */
const settledAfter = 12;

/** Time constants after which what is left of a crossing is less than 1e-9: all that are older count alike. */
const memory = 20.8;

/** Squared distance, in variances, from which on a Gaussian density counts as zero. */
const farthest = 160;

/** Lags that a row of the table has room for at first. */
const shortest = 256;

const rootTwoPi = Math.sqrt(2 * Math.PI);

/**
 * First-passage density of u = v + noise to the threshold, for one amplitude at a time, along the path of a burst.
 *
 *   g(t) = −2Ψ(t | start) + 2∫ g(s)·Ψ(t | θ, s) ds
 *   2Ψ(t | θ, s) = (1/τ)·φ(D; var)·[θ − A·r(t) − 2D/(1 − e^(−2(t−s)/τ))],  D = θ − mean of u(t) given u(s) = θ
 *
 * whose kernel vanishes as s → t, and everywhere where the boundary is straight for the Brownian motion
 * behind u. Where the level is even it depends on t modulo the period and on t − s, and is tabulated as it is asked
 * for. There, once twelve time constants have passed, the density falls from period to period by the same factor.
 *
 * Source: A. Buonocore, A. G. Nobile, L. M. Ricciardi, "A new integral equation for the evaluation of
 * first-passage-time probability densities", Adv. Appl. Prob. 19, 1987, for a Wiener process in the
 * variables y = e^(t/τ)·u − A·R, w = e^(2t/τ) − 1 and turned back; the start averaged over a Gaussian cut off at θ.
 */
export class PassageDensity {
  private readonly paths: BurstPaths;
  private readonly threshold: number;
  private amplitude = 0;
  private readonly timeConstant: number;
  private readonly power: number;
  /** The kernel times the step where the level is even, by row of the later time and lag, as far as known. */
  private readonly table: (Float64Array | undefined)[];
  private readonly known: Int32Array;
  /** The last lag of each row that is not zero, and how many after it were. */
  private readonly last: Int32Array;

  /**
   * @param paths - paths on a grid
   * @param threshold - θ; V
   * @param noise - rms of the noise once it has settled; V, > 0
   * @param timeConstant - τ; s
   */
  constructor(paths: BurstPaths, threshold: number, noise: number, timeConstant: number) {
    this.paths = paths;
    this.threshold = threshold;
    this.timeConstant = timeConstant;
    this.power = noise * noise;
    const { rows } = paths.grid;
    this.table = new Array<Float64Array | undefined>(rows);
    this.known = new Int32Array(rows);
    this.last = new Int32Array(rows);
  }

  /** Turns to an amplitude; V, > 0. */
  setAmplitude(amplitude: number): void {
    this.amplitude = amplitude;
    this.known.fill(0);
    this.last.fill(0);
    for (const row of this.table) row?.fill(0);
  }

  /**
   * Probability of the first crossing at each point of a path.
   *
   * @param path - the path
   * @param start - u when the burst begins; what of it is above the threshold crosses nothing
   * @param out - receives the probability that goes with points 0, 1, 2, …, as many as the path has
   * @param negligible - a probability that nobody misses
   * @param leave - a survival below which, at the end of a period, nobody wants to go on
   * @returns how many values were filled: all, or up to where what remains to cross is below that or negligible
   */
  fill(
    path: BurstPath,
    start: BurstStart,
    out: Float64Array,
    negligible = 1e-14,
    leave = -1,
  ): number {
    const { evenFrom, evenTo, steps } = this.paths;
    const { rows, step } = this.paths.grid;
    const settled = evenFrom + rows + (settledAfter * this.timeConstant) / step;
    const whole = normalCdf((this.threshold - start.mean) / Math.sqrt(start.variance + 1e-300));
    let first = -1;
    let mass = 0;
    let quiet = 0;
    let fall = -1;
    // Crossings so old that nothing is left of when they were.
    const oldest = Math.ceil((memory * this.timeConstant) / step);
    let old = 0;
    out[0] = 0;
    for (let i = 1; i <= steps; i++) {
      let share = 0;
      if (i > settled && i <= evenTo) {
        if (fall < 0) fall = periodFall(out, i, rows, whole - mass);
        share = fall * out[i - rows]!;
      } else {
        share = step * this.fromStart(path, start, i);
        if (first >= 0 || share >= negligible) {
          if (first < 0) first = i;
          if (i > oldest) old += out[i - oldest - 1]!;
          share = this.afterCrossings(path, share, out, [Math.max(first, i - oldest), old], i);
        } else share = 0;
      }
      out[i] = share;
      mass += share;
      quiet = share < 1e4 * negligible ? quiet + 1 : 0;
      if (mass > 0.9 * whole && quiet >= rows) return i + 1;
      if (mass > whole - leave && i % rows === 0 && i >= evenFrom + rows) return i + 1;
    }
    return steps + 1;
  }

  /** The part of g due to the start: −2Ψ(t | start), i points after it; 1/s. */
  private fromStart(path: BurstPath, { mean, variance }: BurstStart, i: number): number {
    const { amplitude, threshold, power, timeConstant } = this;
    const { charge, drive } = path;
    const kept = this.paths.decay[i]!;
    const fresh = power * (1 - kept * kept);
    const total = fresh + variance * kept * kept;
    const d = threshold - amplitude * charge[i]! - mean * kept;
    const density = gaussian(d, total);
    if (density === 0) return 0;
    const pull = amplitude * drive[i]! - threshold;
    // Mean and spread of the start, given that u is at the threshold now; it must have been below.
    const given = mean + (variance * kept * d) / total;
    const spread = Math.sqrt((variance * fresh) / total) + 1e-12 * threshold;
    const room = threshold - given;
    const below = room > 8 * spread ? 1 : normalCdf(room / spread);
    const edge = room > 8 * spread ? 0 : exp(-0.5 * (room / spread) * (room / spread)) / rootTwoPi;
    const rate = 2 * power * ((d * below) / total + (kept * spread * edge) / fresh);
    return (density * (pull * below + rate)) / timeConstant;
  }

  /** What those that have crossed already make of the density at point i: from point `first` on, and so many before. */
  private afterCrossings(
    path: BurstPath,
    share: number,
    out: Float64Array,
    [first, before]: readonly [number, number],
    i: number,
  ): number {
    const { evenFrom, evenTo, grid } = this.paths;
    const isEven = i >= evenFrom && i <= evenTo;
    let g = share;
    if (before > 0) g += before * this.kernelOf(0, path.charge[i]!, path.drive[i]!);
    let nearest = 0;
    if (isEven) {
      const row = (path.start + i) % grid.rows;
      const reach = i - Math.max(first, evenFrom);
      if (Math.max(1, reach) > this.known[row]!) this.tabulate(row, Math.max(1, reach));
      const table = this.table[row]!;
      g += convolved(out, i, table, Math.min(reach, this.last[row]!));
      nearest = table[1]!;
    } else nearest = this.kernel(path, i, i - 1);
    // A period without anything, and nothing comes any more.
    let idle = 0;
    for (let j = (isEven ? evenFrom : i) - 1; j >= first && idle <= grid.rows; j--) {
      const value = this.kernel(path, i, j);
      idle = Math.abs(value) < forgotten ? idle + 1 : 0;
      g += out[j]! * value;
    }
    return g / (1 - endCorrection * nearest);
  }

  /** The kernel times the step, from point j of the path to point i. */
  private kernel(path: BurstPath, i: number, j: number): number {
    const { charge, drive } = path;
    const kept = this.paths.decay[i - j]!;
    return this.kernelOf(kept, charge[i]! - charge[j]! * kept, drive[i]!);
  }

  /** The same, given what is kept of a charge, what the tone brings per volt, and the tone at the end. */
  private kernelOf(kept: number, brought: number, drive: number): number {
    const { amplitude, threshold, power, timeConstant } = this;
    const clock = 1 - kept * kept;
    const d = threshold * (1 - kept) - amplitude * brought;
    // Most are zero, which is told without a division.
    if (d * d > farthest * power * clock) return 0;
    const pull = threshold - amplitude * drive;
    const density = gaussian(d, power * clock);
    return (density * (pull - (2 * d) / clock) * this.paths.grid.step) / timeConstant;
  }

  /** More lags of one row of the table. */
  private tabulate(row: number, reach: number): void {
    const { steadyOf, toneOf, evenLevel, decay, grid, steps } = this.paths;
    const { rows } = grid;
    let table = this.table[row];
    if (table === undefined || table.length <= reach) {
      const longer = new Float64Array(Math.min(steps, Math.max(shortest, 2 * reach)) + 1);
      if (table !== undefined) longer.set(table);
      table = longer;
      this.table[row] = table;
    }
    const drive = evenLevel * toneOf[row]!;
    let from = (row - this.known[row]!) % rows;
    if (from < 0) from += rows;
    for (let lag = this.known[row]! + 1; lag <= reach; lag++) {
      from = from === 0 ? rows - 1 : from - 1;
      // A period without anything, and nothing comes any more.
      if (lag > this.last[row]! + rows + 1) break;
      const kept = decay[lag]!;
      const value = this.kernelOf(
        kept,
        evenLevel * (steadyOf[row]! - steadyOf[from]! * kept),
        drive,
      );
      if (Math.abs(value) < forgotten) continue;
      table[lag] = value;
      this.last[row] = lag;
    }
    this.known[row] = reach;
  }
}

/** The factor by which the density falls from period to period, from the last one before point i and what survived it. */
function periodFall(out: Float64Array, i: number, rows: number, survival: number): number {
  let last = 0;
  for (let k = 1; k <= rows; k++) last += out[i - k]!;
  const left = Math.max(0, survival);
  return left > 0 ? left / (left + Math.max(0, last)) : 0;
}

/** Gaussian density of a variance at a distance from its mean. */
function gaussian(d: number, variance: number): number {
  const x = (d * d) / variance;
  return x < farthest ? exp(-0.5 * x) / Math.sqrt(2 * Math.PI * variance) : 0;
}

/** Σ out(i − lag)·kernel(lag). */
function convolved(out: Float64Array, i: number, kernel: Float64Array, reach: number): number {
  // Four sums side by side, so that an addition need not wait for the one before.
  let a = 0;
  let b = 0;
  let c = 0;
  let d = 0;
  let lag = 1;
  for (; lag + 3 <= reach; lag += 4) {
    a += out[i - lag]! * kernel[lag]!;
    b += out[i - lag - 1]! * kernel[lag + 1]!;
    c += out[i - lag - 2]! * kernel[lag + 2]!;
    d += out[i - lag - 3]! * kernel[lag + 3]!;
  }
  for (; lag <= reach; lag++) a += out[i - lag]! * kernel[lag]!;
  return a + b + (c + d);
}
