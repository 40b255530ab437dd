import type { RandomStream } from "../numeric/index.ts";
import type { RelaxationBank } from "./relaxation-bank.ts";
import type { Seen } from "./relaxation-bridge.ts";
import {
  abreast,
  openReadings,
  type RelaxationStride,
  relaxationStride,
} from "./relaxation-stride.ts";
import { StepCache } from "./step-cache.ts";

const half = openReadings / 2;
/** Equal steps in a row before the first stride is begun. */
const leastPatience = 16;
/** To leave a stride costs as much as some forty plain steps: factor on the patience, halved at each stride. */
const leaveFactor = 16;

/** Coefficients of a plain step. */
interface PlainStep {
  readonly factors: Float64Array;
  readonly restDeviation: number;
}

/**
 * A bank of relaxation processes of which only a sum is seen at each step, at a fraction of a bank's cost.
 *
 * Where equal steps recur it goes by strides: it draws the values of all processes at the end of the
 * stride, then all readings up to there from their joint Gaussian (`relaxationStride`), and hands them out one
 * by one. Where another step is asked for within a stride, the values at that moment are drawn given all
 * that was seen, and what was not seen is forgotten. The law of the readings is that of plain steps, whatever
 * the steps; which deviate goes where depends on the sequence of steps alone.
 *
 * Source: conditional Gaussian; see `leave`.
 */
export class StridedBank {
  private readonly bank: RelaxationBank;
  private readonly seen: Seen;
  private readonly stream: RandomStream;
  private readonly plainSteps: StepCache<PlainStep>;
  private readonly strides: StepCache<RelaxationStride>;
  /** Readings of the present stride, of which `left` are still to be handed out. */
  private readonly ahead: Float64Array;
  private left = 0;
  private readonly evenIn: Float64Array;
  private readonly oddIn: Float64Array;
  private readonly ends: Float64Array;
  private readonly gaps = new Float64Array(openReadings);
  /** The last step; s. */
  private step = 0;
  /** Plain steps of that length in a row, and how many of them it takes to begin a stride. */
  private equal = 0;
  private patience: number;

  /**
   * @param bank - the processes, where they stand
   * @param seen - what a reading is: the summed integral over a step, or the sum at the end of it
   * @param stream - where the deviates come from
   * @param hasStrides - whether to go by strides at all; else each step is a plain one
   */
  constructor(bank: RelaxationBank, seen: Seen, stream: RandomStream, hasStrides = true) {
    const terms = bank.after.length;
    this.bank = bank;
    this.seen = seen;
    this.stream = stream;
    this.patience = hasStrides ? leastPatience : Number.POSITIVE_INFINITY;
    this.plainSteps = new StepCache((dt) => {
      const { factors, residualVariance } = bank.step(dt);
      return { factors, restDeviation: Math.sqrt(residualVariance) };
    });
    this.strides = new StepCache((dt) => relaxationStride(bank, seen, dt));
    this.ahead = new Float64Array(seen === "sum" ? openReadings + 1 : openReadings);
    this.evenIn = new Float64Array(terms + half);
    this.oddIn = new Float64Array(terms + half);
    this.ends = new Float64Array(terms);
  }

  /**
   * Moves all processes on by a step.
   *
   * @param dt - step; s, > 0
   * @returns the reading: Σ ∫y over the step, or Σ y at the end of it; unit of the process, times s for integrals
   */
  advance(dt: number): number {
    if (this.left > 0) {
      if (dt === this.step) return this.ahead[this.ahead.length - this.left--]!;
      this.leave();
    }
    if (this.ends.length === 0) return 0;
    if (dt !== this.step) {
      this.step = dt;
      this.equal = 0;
    }
    if (this.equal >= this.patience) {
      this.begin();
      return this.ahead[this.ahead.length - this.left--]!;
    }
    this.equal++;
    return this.plain(dt);
  }

  /**
   * Moves all processes on by several equal steps.
   *
   * @param dt - step; s, > 0
   * @param readings - to which the reading of each step is added
   * @param from - index of the first
   * @param to - index after the last
   */
  advanceAlong(dt: number, readings: Float64Array, from: number, to: number): void {
    if (this.ends.length === 0) return;
    let i = from;
    if (dt === this.step) {
      const { ahead } = this;
      const first = ahead.length - this.left;
      const known = Math.min(this.left, to - from);
      for (let k = first; k < first + known; k++, i++) readings[i] = readings[i]! + ahead[k]!;
      this.left -= known;
    }
    for (; i < to; i++) readings[i] = readings[i]! + this.advance(dt);
  }

  /**
   * Readings of a step that are there without a draw.
   *
   * @param dt - step; s, > 0
   * @returns how many times `advance(dt)` draws nothing; Infinity for a bank without processes
   */
  ready(dt: number): number {
    if (this.ends.length === 0) return Number.POSITIVE_INFINITY;
    return dt === this.step ? this.left : 0;
  }

  /**
   * The processes with their values now, drawn if they were not yet.
   *
   * @returns the bank, to be read until the next `advance`
   */
  settle(): RelaxationBank {
    if (this.left > 0) this.leave();
    return this.bank;
  }

  private plain(dt: number): number {
    const { factors, restDeviation } = this.plainSteps.at(dt);
    const mean = this.bank.advance(factors, this.stream);
    return this.seen === "sum" ? this.bank.sum() : mean + restDeviation * this.stream.normal();
  }

  private begin(): void {
    const { factors, law, starts, steps } = this.strides.at(this.step);
    const { bank, stream, evenIn, oddIn, ahead } = this;
    const { before, after } = bank;
    const terms = after.length;
    const width = terms + half;
    bank.advance(factors, stream);
    stream.fillNormal(evenIn, terms, width);
    stream.fillNormal(oddIn, terms, width);
    for (let k = 0; k < terms; k++) {
      evenIn[k] = before[k]! + after[k]!;
      oddIn[k] = after[k]! - before[k]!;
    }
    for (let row = 0, from = 0; row < half; row += abreast, from += 2 * abreast * width) {
      const first = starts[row / abreast]!;
      readFour(law, from, first, terms + row + abreast, evenIn, oddIn, ahead, row);
    }
    if (steps > openReadings) ahead[openReadings] = bank.sum();
    this.left = steps;
    this.patience = Math.max(leastPatience, 0.5 * this.patience);
  }

  /**
   * Draws the values at t_i within a stride given the end values and the readings o seen so far.
   *
   *   y = y* + cov(y, o)·cov(o, o)⁻¹·(o − o*)
   *
   * with y*, o* drawn without regard to o: by plain steps from the start, brought to the end values in the
   * same manner, process by process. The values at the end and the readings not yet seen are forgotten.
   *
   * Source: conditioning by kriging, Journel & Huijbregts, Mining Geostatistics (1978), known as Matheron's
   * rule. Exact case: a sum of one process is its value, and y = o_i.
   */
  private leave(): void {
    const { bank, ends, gaps, stream } = this;
    const { bridge, root, steps } = this.strides.at(this.step);
    const values = bank.after;
    const i = steps - this.left;
    ends.set(values);
    values.set(bank.before);
    for (let j = 0; j < i; j++) {
      gaps[j] = this.ahead[j]! - this.plain(this.step);
    }
    for (let k = 0; k < ends.length; k++) {
      const spread = Math.sqrt(bridge.variance(k, this.left));
      const end = bridge.decay(k, this.left) * values[k]! + spread * stream.normal();
      const miss = ends[k]! - end;
      values[k] = values[k]! + bridge.share(k, this.left) * miss;
      for (let j = 0; j < i; j++) {
        gaps[j] = gaps[j]! - bridge.endWeight(k, j + 1) * miss;
      }
    }
    solve(root, gaps, i);
    for (let k = 0; k < ends.length; k++) {
      for (let j = 0; j < i; j++) {
        values[k] = values[k]! + bridge.valueCovariance(k, i, j + 1) * gaps[j]!;
      }
    }
    this.left = 0;
    this.equal = 0;
    this.patience *= leaveFactor;
  }
}

/**
 * Readings of four rows and, from the end, of their mirror images. Eight sums grow side by side: one alone would
 * wait for each addition, and the arrays would be looked up anew for each term.
 */
function readFour(
  law: Float64Array,
  from: number,
  first: number,
  end: number,
  evenIn: Float64Array,
  oddIn: Float64Array,
  readings: Float64Array,
  row: number,
): void {
  let e0 = 0;
  let e1 = 0;
  let e2 = 0;
  let e3 = 0;
  let d0 = 0;
  let d1 = 0;
  let d2 = 0;
  let d3 = 0;
  for (let k = first, at = from + 2 * abreast * first; k < end; k++, at += 2 * abreast) {
    const even = evenIn[k]!;
    const odd = oddIn[k]!;
    e0 += law[at]! * even;
    e1 += law[at + 1]! * even;
    e2 += law[at + 2]! * even;
    e3 += law[at + 3]! * even;
    d0 += law[at + 4]! * odd;
    d1 += law[at + 5]! * odd;
    d2 += law[at + 6]! * odd;
    d3 += law[at + 7]! * odd;
  }
  const last = openReadings - 1 - row;
  readings[row] = e0 - d0;
  readings[row + 1] = e1 - d1;
  readings[row + 2] = e2 - d2;
  readings[row + 3] = e3 - d3;
  readings[last] = e0 + d0;
  readings[last - 1] = e1 + d1;
  readings[last - 2] = e2 + d2;
  readings[last - 3] = e3 + d3;
}

/** Solves C·x = b in place, C the leading m×m part of L·Lᵀ. */
function solve(root: Float64Array, b: Float64Array, m: number): void {
  for (let i = 0; i < m; i++) {
    let rest = b[i]!;
    for (let j = 0; j < i; j++) {
      rest -= root[i * openReadings + j]! * b[j]!;
    }
    b[i] = divided(rest, root[i * openReadings + i]!);
  }
  for (let i = m - 1; i >= 0; i--) {
    let rest = b[i]!;
    for (let j = i + 1; j < m; j++) {
      rest -= root[j * openReadings + i]! * b[j]!;
    }
    b[i] = divided(rest, root[i * openReadings + i]!);
  }
}

/** a/b, where a pivot of 0 stands for what is known already. */
function divided(a: number, b: number): number {
  return b > 0 ? a / b : 0;
}
