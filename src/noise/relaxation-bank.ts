import type { RandomStream } from "../numeric/index.ts";
import { termStep } from "./term-step.ts";

/** Coefficients of one step of a bank of relaxation processes. */
export interface BankStep {
  /** Decay, spread and weight of each process, one after the other: 3n numbers. */
  readonly factors: Float64Array;
  /** Variance of the summed integrals given all end values; unit of the process² · s². */
  readonly residualVariance: number;
}

/**
 * Independent relaxation processes y' = −y/T + √D·W', each known at both ends of the last step.
 *
 * T = ∞ is a random walk: y' = √D·W'.
 */
export class RelaxationBank {
  /** Time constants T; n values, s, Infinity for a random walk. */
  readonly timeConstants: Float64Array;
  /** Diffusions D; n values, unit of the process² / s. */
  readonly diffusions: Float64Array;
  /** Values at the start of the last step; n values. */
  readonly before: Float64Array;
  /** Values now; n values. */
  readonly after: Float64Array;
  private readonly deviates: Float64Array;

  /**
   * @param timeConstants - T; s, > 0, Infinity for a random walk
   * @param diffusions - D; unit of the process² / s, >= 0, as many
   * @param values - where the processes stand; as many
   */
  constructor(timeConstants: Float64Array, diffusions: Float64Array, values: Float64Array) {
    this.timeConstants = timeConstants;
    this.diffusions = diffusions;
    this.before = Float64Array.from(values);
    this.after = Float64Array.from(values);
    this.deviates = new Float64Array(values.length);
  }

  /**
   * A bank in its stationary state: variance D·T/2 of relaxation processes, random walks at zero.
   *
   * @param timeConstants - T; s, > 0, Infinity for a random walk
   * @param diffusions - D; unit of the process² / s, >= 0, as many
   * @param stream - gives the start values, one deviate a relaxation process
   */
  static stationary(
    timeConstants: Float64Array,
    diffusions: Float64Array,
    stream: RandomStream,
  ): RelaxationBank {
    const values = timeConstants.map((time, k) =>
      time === Infinity ? 0 : Math.sqrt(0.5 * diffusions[k]! * time) * stream.normal(),
    );
    return new RelaxationBank(timeConstants, diffusions, values);
  }

  /**
   * Some of the processes as a bank of their own, where they stand now.
   *
   * @param places - which; integers from 0 to n − 1
   */
  part(places: Int32Array): RelaxationBank {
    const pick = (values: Float64Array) => Float64Array.from(places, (k) => values[k]!);
    return new RelaxationBank(pick(this.timeConstants), pick(this.diffusions), pick(this.after));
  }

  /**
   * Coefficients of a step, to be kept as long as the step recurs.
   *
   * @param dt - step; s, > 0
   * @returns the factors of each process and the variance of the summed integrals given the end values
   */
  step(dt: number): BankStep {
    const n = this.timeConstants.length;
    const factors = new Float64Array(3 * n);
    let residualVariance = 0;
    for (let k = 0; k < n; k++) {
      const diffusion = this.diffusions[k]!;
      const term = termStep(this.timeConstants[k]!, dt);
      factors[3 * k] = term.decay;
      factors[3 * k + 1] = Math.sqrt(diffusion * term.spread);
      factors[3 * k + 2] = term.weight;
      residualVariance += diffusion * term.residual;
    }
    return { factors, residualVariance };
  }

  /**
   * Draws the end values of a step, one deviate a process.
   *
   * @param factors - those of `step(dt)`
   * @param stream - where the deviates come from
   * @returns mean of the summed integrals ∫y over the step given all end values; unit of the process · s
   */
  advance(factors: Float64Array, stream: RandomStream): number {
    const before = this.before;
    const after = this.after;
    const deviates = this.deviates;
    const n = after.length;
    stream.fillNormal(deviates, 0, n);
    let integral = 0;
    for (let k = 0, i = 0; k < n; k++, i += 3) {
      const y0 = after[k]!;
      const y1 = factors[i]! * y0 + factors[i + 1]! * deviates[k]!;
      before[k] = y0;
      after[k] = y1;
      integral += factors[i + 2]! * (y0 + y1);
    }
    return integral;
  }

  /**
   * Makes several equal steps from deviates already drawn.
   *
   * @param factors - those of `step(dt)`
   * @param steps - how many; >= 1
   * @param deviates - standard Gaussian: for step i those of all processes, from `at + i·pitch` on
   * @param at - place of the first
   * @param pitch - places from one step to the next
   * @param path - receives the values of each process at the start and after each step, process by process:
   *   n rows of `steps` + 1
   */
  walk(
    factors: Float64Array,
    steps: number,
    deviates: Float64Array,
    at: number,
    pitch: number,
    path: Float64Array,
  ): void {
    const { before, after } = this;
    let place = 0;
    for (let k = 0; k < after.length; k++) {
      const decay = factors[3 * k]!;
      const spread = factors[3 * k + 1]!;
      let value = after[k]!;
      path[place++] = value;
      for (let i = 0, from = at + k; i < steps; i++, from += pitch) {
        value = decay * value + spread * deviates[from]!;
        path[place++] = value;
      }
      before[k] = path[place - 2]!;
      after[k] = value;
    }
  }

  /**
   * Adds the sum of all processes after each step of a walk.
   *
   * @param path - as `walk` has written it
   * @param steps - how many; >= 1
   * @param sums - to which Σ y is added, step by step; unit of the process
   */
  addSums(path: Float64Array, steps: number, sums: Float64Array): void {
    const terms = this.after.length;
    for (let i = 0; i < steps; i++) {
      let sum = 0;
      for (let k = 0, at = i + 1; k < terms; k++, at += steps + 1) {
        sum += path[at]!;
      }
      sums[i] = sums[i]! + sum;
    }
  }

  /**
   * Sum of all processes now.
   *
   * @returns Σ y; unit of the process
   */
  sum(): number {
    const after = this.after;
    let sum = 0;
    for (let k = 0; k < after.length; k++) {
      sum += after[k]!;
    }
    return sum;
  }
}
