import { exp } from "../../numeric/index.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";
import type { RectifiedTone } from "./rectified-tone.ts";

/** Part of a step's probability below which the memory of earlier crossings is cut off. */
const forgotten = 1e-12;

/**
 * −ζ(−½): what the rectangle rule for a kernel that begins as √lag lacks, in units of its first value
 * (generalised Euler-Maclaurin formula, Navot 1961).
 */
const endCorrection = 0.2078862249773546;

/**
 * First-passage density of u = v + noise to the threshold, for one amplitude, on a grid locked to the tone.
 *
 *   g(t) = −2Ψ(t | start) + 2∫ g(s)·Ψ(t | θ, s) ds
 *   2Ψ(t | θ, s) = (1/τ)·φ(D; var)·[θ − A·r(t) − 2D/(1 − e^(−2(t−s)/τ))],  D = θ − mean of u(t) given u(s) = θ
 *
 * whose kernel vanishes as s → t, and everywhere where the boundary is straight for the Brownian motion
 * behind u. It depends on t modulo the period and on t − s, so it is tabulated once for all starts; for a
 * tone so slow that the burst is over within a period only as far as a start asks for it. (No
 * leak: θ absent from the bracket, 2(t − s)/τ for 1 − e^(−2(t−s)/τ).)
 *
 * Source: A. Buonocore, A. G. Nobile, L. M. Ricciardi, "A new integral equation for the evaluation of
 * first-passage-time probability densities", Adv. Appl. Prob. 19, 1987, for a Wiener process in the
 * variables y = e^(t/τ)·u − A·R, w = e^(2t/τ) − 1 and turned back.
 */
export class PassageKernel {
  /** Spacing of the grid; s. */
  readonly step: number;
  /** Grid points in a period; 1 where the tone is replaced by its mean. */
  readonly perPeriod: number;
  /** Lags of the table, in steps. */
  lags = 0;
  private readonly leak: boolean;
  private readonly amplitude: number;
  private readonly threshold: number;
  private readonly noise: number;
  private readonly tau: number;
  /** r(t) on the grid, and the steady response: u = A·steady for ever once it is there (no leak: R). */
  private readonly drive: Float64Array;
  private readonly steady: Float64Array;
  /** e^(−t/τ) after so many steps. */
  private readonly decay: Float64Array;
  /** What R gains in a period without leak. */
  private readonly gain: number;
  private table = new Float64Array(0);
  /** Lags of each row that are in the table, where it grows as it is asked for; else null. */
  private readonly known: Int32Array | null;
  /** The last of them that is not zero. */
  private readonly last: Int32Array;

  /**
   * @param receiver - the detector, noise_v > 0
   * @param tone - the rectified tone
   * @param amplitude - A; V
   * @param perPeriod - grid points in a period, or 0 for the mean of the tone instead of the tone
   * @param step - spacing of the grid where the mean is taken; s
   * @param steps - most steps looked at
   */
  constructor(
    receiver: ReceiverParameters,
    tone: RectifiedTone,
    amplitude: number,
    perPeriod: number,
    step: number,
    steps: number,
  ) {
    const points = Math.max(1, perPeriod);
    this.perPeriod = points;
    this.step = perPeriod > 0 ? tone.period / perPeriod : step;
    this.leak = receiver.leak;
    this.amplitude = amplitude;
    this.threshold = receiver.thresholdV;
    this.noise = receiver.noiseV;
    this.tau = receiver.timeConstant;
    this.drive = new Float64Array(points);
    this.steady = new Float64Array(points);
    const mean = tone.turnsPerPeriod === 0.5 ? 2 / Math.PI : 1 / Math.PI;
    this.gain = perPeriod > 0 ? tone.responsePerPeriod : (mean * step) / this.tau;
    for (let k = 0; k < points; k++) {
      const x = k / points;
      const growth = tone.growth(x);
      this.drive[k] = perPeriod > 0 ? tone.drive(x) : mean;
      const response = tone.response(x, growth);
      const settled = tone.leak ? (tone.settled + response) / growth : response;
      this.steady[k] = perPeriod > 0 ? settled : tone.leak ? mean : 0;
    }
    this.decay = new Float64Array(steps + 1);
    for (let i = 0; i <= steps; i++) this.decay[i] = exp((-i * this.step) / this.tau);
    this.known = points > steps ? new Int32Array(points) : null;
    this.last = new Int32Array(this.known === null ? 0 : points);
    if (this.known === null) this.fillTable(steps);
    else {
      this.lags = steps;
      this.table = new Float64Array(points * steps);
    }
  }

  /**
   * Density of the first crossing after a start with stationary noise and no charge (no leak: from zero).
   *
   * @param start - grid point of the period at which the burst begins; integer, 0 ≤ start < perPeriod
   * @param out - receives g at 1, 2, … steps after the start; 1/s
   * @param leave - a survival below which, at the end of a period, nobody wants to go on
   * @returns how many values were filled: all, or up to where what remains to cross is negligible
   */
  density(start: number, out: Float64Array, leave = -1): number {
    const { perPeriod, lags, table, step } = this;
    let first = -1;
    let mass = 0;
    let quiet = 0;
    for (let i = 1; i <= out.length; i++) {
      const row = (start + i) % perPeriod;
      let g = this.fromStart(start, i);
      if (first < 0 && g * step < 1e-14) {
        out[i - 1] = 0;
        continue;
      }
      if (first < 0) first = i;
      const base = row * lags - 1;
      const before = i - 1;
      let reach = Math.min(lags, i - first);
      if (this.known !== null) {
        if (Math.max(1, reach) > this.known[row]!)
          this.fillRow(row, Math.max(1, reach), this.known);
        // In whole groups of four, so that what is added up, and in what order, stays the same.
        reach = Math.min(reach, 4 * Math.ceil(this.last[row]! / 4));
      }
      g += crossedBefore(out, before, table, base, reach);
      g = g / (1 - endCorrection * table[base + 1]!);
      out[i - 1] = g;
      mass += g * step;
      quiet = g * step < 1e-10 ? quiet + 1 : 0;
      if (mass > 0.9 && quiet >= perPeriod) return i;
      if (mass > 1 - leave && i % perPeriod === 0) return i;
    }
    return out.length;
  }

  /** The part of g due to the start: −2Ψ(t | start), i steps after it; 1/s. */
  private fromStart(start: number, i: number): number {
    const { amplitude, threshold, noise, tau } = this;
    const row = (start + i) % this.perPeriod;
    const r = amplitude * this.drive[row]!;
    if (!this.leak) {
      const clock = (2 * i * this.step) / tau;
      const d = threshold - amplitude * this.gained(start, i);
      return (gaussian(d, noise * noise * clock) * (r + (2 * d) / clock)) / tau;
    }
    const mean = amplitude * (this.steady[row]! - this.steady[start]! * this.decay[i]!);
    const d = threshold - mean;
    return (gaussian(d, noise * noise) * (2 * d - threshold + r)) / tau;
  }

  /** R from the start to i steps after it, without leak. */
  private gained(start: number, i: number): number {
    const at = start + i;
    const row = at % this.perPeriod;
    const periods = (at - row) / this.perPeriod;
    return periods * this.gain + this.steady[row]! - this.steady[start]!;
  }

  /** More lags of one row, the tone being slower than the burst; the same arithmetic as `fillTable`. */
  private fillRow(row: number, reach: number, known: Int32Array): void {
    const { amplitude, threshold, noise, tau, perPeriod, step, steady, decay, leak } = this;
    const left = threshold - amplitude * steady[row]!;
    const power = noise * noise;
    const pull = (leak ? threshold : 0) - amplitude * this.drive[row]!;
    const base = row * this.lags - 1;
    for (let lag = known[row]! + 1; lag <= reach; lag++) {
      const from = row - lag < 0 ? row - lag + perPeriod : row - lag;
      const kept = leak ? decay[lag]! : 1;
      const clock = leak ? 1 - kept * kept : (2 * lag * step) / tau;
      const d = leak
        ? left - (threshold - amplitude * steady[from]!) * kept
        : -amplitude * this.gained(from, lag);
      // Most are zero, which is told without a division.
      if (d * d > 1.01 * farthest * power * clock) continue;
      const value = (gaussian(d, power * clock) * (pull - (2 * d) / clock) * step) / tau;
      if (value === 0) continue;
      this.table[base + lag] = value;
      this.last[row] = lag;
    }
    known[row] = reach;
  }

  /** The kernel times the step, rows by phase of the later time. */
  private fillTable(steps: number): void {
    const { amplitude, threshold, noise, tau, perPeriod, step } = this;
    const columns: Float64Array[] = [];
    let quiet = 0;
    for (let lag = 1; lag <= steps && quiet < perPeriod; lag++) {
      const column = new Float64Array(perPeriod);
      const kept = this.leak ? this.decay[lag]! : 1;
      const clock = this.leak ? 1 - kept * kept : (2 * lag * step) / tau;
      let largest = 0;
      for (let row = 0; row < perPeriod; row++) {
        const from = (((row - lag) % perPeriod) + perPeriod) % perPeriod;
        const d = this.leak
          ? threshold -
            amplitude * this.steady[row]! -
            (threshold - amplitude * this.steady[from]!) * kept
          : -amplitude * this.gained(from, lag);
        const pull = (this.leak ? threshold : 0) - amplitude * this.drive[row]!;
        const value = (gaussian(d, noise * noise * clock) * (pull - (2 * d) / clock) * step) / tau;
        column[row] = value;
        largest = Math.max(largest, Math.abs(value));
      }
      columns.push(column);
      quiet = largest < forgotten ? quiet + 1 : 0;
    }
    this.lags = columns.length;
    this.table = new Float64Array(perPeriod * this.lags);
    for (let lag = 0; lag < this.lags; lag++) {
      const column = columns[lag]!;
      for (let row = 0; row < perPeriod; row++) this.table[row * this.lags + lag] = column[row]!;
    }
  }
}

/** Squared distance, in variances, from which on a Gaussian density counts as zero. */
const farthest = 160;

/** Gaussian density of a variance at a distance from its mean. */
function gaussian(d: number, variance: number): number {
  const x = (d * d) / variance;
  return x > farthest ? 0 : exp(-0.5 * x) / Math.sqrt(2 * Math.PI * variance);
}

/** Σ g(t − lag)·kernel(lag): what those that have crossed already take off the density. */
function crossedBefore(
  density: Float64Array,
  before: number,
  table: Float64Array,
  base: number,
  reach: number,
): number {
  // Four sums side by side, so that an addition need not wait for the one before.
  let a = 0;
  let b = 0;
  let c = 0;
  let d = 0;
  let lag = 1;
  for (; lag + 3 <= reach; lag += 4) {
    a += density[before - lag]! * table[base + lag]!;
    b += density[before - lag - 1]! * table[base + lag + 1]!;
    c += density[before - lag - 2]! * table[base + lag + 2]!;
    d += density[before - lag - 3]! * table[base + lag + 3]!;
  }
  for (; lag <= reach; lag++) a += density[before - lag]! * table[base + lag]!;
  return a + b + (c + d);
}
