import { poleVariance } from "./ladder.ts";
import type { Levels } from "./levels.ts";
import { poleCount, type Transition } from "./transition.ts";

/** Place of the phase from the first edge of the stretch as it was stamped. */
export const phaseAt = 0;
/** Place of the phase at the first edge of the run, on the same scale: their difference is what the run gained. */
export const firstAt = 1;
/** Place of the first rate process: the random walk if there is one, then the flicker ladder. */
export const polesAt = 2;

/**
 * Kalman filter of the phase of a clock seen at its edges. Covariances and gains do not depend on the readings, so
 * that any number of columns (the readings, and every regressor) run through the same gains.
 *
 * State: phase, phase at the run's first edge, rate processes. Starting a stretch at its first stamp leaves nothing
 * diffuse: x₀ is never estimated, the phases are counted from the first stamp and share its error.
 *
 * Source: Durbin & Koopman, Time Series Analysis by State Space Methods; columns: de Jong, Biometrika 75, 594 (1988).
 */
export class EdgeFilter {
  readonly order: number;
  /** Covariance of the state, its upper triangle row by row. */
  readonly covariance: Float64Array;
  /** State of each column; order values a column. */
  readonly states: Float64Array;
  /** Gain of the last observation. */
  readonly gain: Float64Array;
  /** Innovation of each column at the last observation. */
  readonly innovation: Float64Array;
  private readonly cross: Float64Array;
  private readonly pm: number;
  private meanVariance = 0;
  private readonly meanStates: Float64Array;
  private readonly columns: number;

  constructor(levels: Levels, times: Float64Array, columns: number) {
    const poles = poleCount(levels, times);
    const n = polesAt + poles;
    this.order = n;
    this.columns = columns;
    this.pm = levels.pm;
    this.covariance = new Float64Array(n * n);
    this.states = new Float64Array(n * columns);
    this.gain = new Float64Array(n);
    this.cross = new Float64Array(n);
    this.innovation = new Float64Array(columns);
    this.meanStates = new Float64Array(columns);
    // Relaxation processes are in equilibrium, the random walk starts at zero.
    for (let k = n - times.length; k < n; k++) {
      this.covariance[k * n + k] = poleVariance * levels.ffm;
    }
  }

  /** Goes on by a block of steps. */
  advance(t: Transition): void {
    const { order: n, covariance: p, cross } = this;
    const { poles } = t;
    const last = poles.length;
    const block = t.count > 1;
    // Rows of the new phase and, for a block, of the mean phase, against the old state.
    const row = this.gain;
    for (let j = 0; j < n; j++) row[j] = p[j]!;
    if (block) for (let j = 0; j < n; j++) cross[j] = p[j]!;
    for (let a = 0; a < last; a++) {
      const pole = poles[a]!;
      const k = polesAt + a;
      const b = pole.gain;
      row[0] = row[0]! + b * p[k]!;
      row[1] = row[1]! + b * p[n + k]!;
      let own = b * p[k * n + k]!;
      for (let c = a + 1; c < last; c++) {
        const cov = p[k * n + polesAt + c]!;
        own += poles[c]!.gain * cov;
        row[polesAt + c] = row[polesAt + c]! + b * cov;
      }
      row[k] = row[k]! + own;
      if (!block) continue;
      const m = pole.mean;
      cross[0] = cross[0]! + m * p[k]!;
      cross[1] = cross[1]! + m * p[n + k]!;
      own = m * p[k * n + k]!;
      for (let c = a + 1; c < last; c++) {
        const cov = p[k * n + polesAt + c]!;
        own += poles[c]!.mean * cov;
        cross[polesAt + c] = cross[polesAt + c]! + m * cov;
      }
      cross[k] = cross[k]! + own;
    }
    let phase = row[0]! + t.phase;
    let meanVariance = cross[0]! + t.meanMean;
    let meanPhase = cross[0]! + t.meanPhase;
    for (let a = 0; a < last; a++) {
      const pole = poles[a]!;
      const k = polesAt + a;
      phase += pole.gain * row[k]!;
      if (block) {
        meanVariance += pole.mean * cross[k]!;
        meanPhase += pole.gain * cross[k]!;
      }
    }
    p[0] = phase;
    p[1] = row[1]!;
    for (let a = 0; a < last; a++) {
      const pole = poles[a]!;
      const k = polesAt + a;
      const e = pole.decay;
      p[k] = e * row[k]! + pole.phaseRate;
      p[n + k] = e * p[n + k]!;
      p[k * n + k] = e * e * p[k * n + k]! + pole.rate;
      for (let c = a + 1; c < last; c++) {
        const at = k * n + polesAt + c;
        p[at] = e * poles[c]!.decay * p[at]!;
      }
      if (block) cross[k] = e * cross[k]! + pole.meanRate;
    }
    if (block) {
      cross[0] = meanPhase;
      this.meanVariance = meanVariance;
    } else {
      for (let j = 0; j < n; j++) cross[j] = p[j]!;
      this.meanVariance = phase;
    }
    const { states, meanStates, columns } = this;
    for (let column = 0, o = 0; column < columns; column++, o += n) {
      let x = states[o]!;
      let mean = x;
      for (let a = 0; a < last; a++) {
        const pole = poles[a]!;
        const at = o + polesAt + a;
        const f = states[at]!;
        x += pole.gain * f;
        mean += pole.mean * f;
        states[at] = pole.decay * f;
      }
      states[o] = x;
      meanStates[column] = block ? mean : x;
    }
  }

  /** Starts a stretch at the edge that is now: phases are counted from its stamp, what the run gained goes on. */
  start(): void {
    const { order: n, covariance: p, states } = this;
    // First: (first − phase) carries on with the new phase, −e, in it.
    const own = p[n + 1]! - 2 * p[1]! + p[0]!;
    for (let k = polesAt; k < n; k++) {
      p[n + k] = p[n + k]! - p[k]!;
      p[k] = 0;
    }
    p[0] = this.pm;
    p[1] = this.pm;
    p[n + 1] = own + this.pm;
    for (let o = 0; o < states.length; o += n) {
      states[o + firstAt] = states[o + firstAt]! - states[o]!;
      states[o] = 0;
    }
  }

  /**
   * Takes an observation of the last block's mean phase.
   *
   * @param count - edges in the block
   * @param values - what each column holds there; phase
   * @returns variance of the innovation
   */
  observe(count: number, values: ArrayLike<number>): number {
    const { order: n, covariance: p, cross, gain, states, innovation, meanStates } = this;
    const variance = this.meanVariance + this.pm / count;
    for (let i = 0; i < n; i++) gain[i] = cross[i]! / variance;
    for (let i = 0; i < n; i++) {
      const g = gain[i]!;
      for (let j = i; j < n; j++) p[i * n + j] = p[i * n + j]! - g * cross[j]!;
    }
    for (let column = 0, o = 0; column < innovation.length; column++, o += n) {
      const v = values[column]! - meanStates[column]!;
      innovation[column] = v;
      for (let i = 0; i < n; i++) states[o + i] = states[o + i]! + gain[i]! * v;
    }
    return variance;
  }

  /**
   * Adds the last block's mean phase, times a weight, to a sum that stands at firstAt in place of the first phase:
   * without observations or starts the covariance is then that of phase, sum and rate processes.
   */
  accumulate(weight: number): void {
    const { order: n, covariance: p, cross } = this;
    const before = cross[firstAt]!;
    p[n + 1] = p[n + 1]! + 2 * weight * before + weight * weight * this.meanVariance;
    p[firstAt] = p[firstAt]! + weight * cross[phaseAt]!;
    for (let k = polesAt; k < n; k++) p[n + k] = p[n + k]! + weight * cross[k]!;
  }
}
