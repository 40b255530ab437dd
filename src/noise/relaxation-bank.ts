import type { RandomStream } from "../numeric/random-stream.ts";
import { relaxationStep } from "./relaxation-step.ts";

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
 * T = ∞ is a random walk: y' = √D·W'. Relaxation processes start stationary (variance D·T/2), random
 * walks at zero.
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
   * @param stream - gives the start values
   */
  constructor(timeConstants: Float64Array, diffusions: Float64Array, stream: RandomStream) {
    this.timeConstants = timeConstants;
    this.diffusions = diffusions;
    this.before = new Float64Array(timeConstants.length);
    this.after = new Float64Array(timeConstants.length);
    this.deviates = new Float64Array(timeConstants.length);
    for (let k = 0; k < timeConstants.length; k++) {
      const time = timeConstants[k]!;
      const start =
        time === Infinity ? 0 : Math.sqrt(0.5 * diffusions[k]! * time) * stream.normal();
      this.before[k] = start;
      this.after[k] = start;
    }
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
      const time = this.timeConstants[k]!;
      const diffusion = this.diffusions[k]!;
      if (time === Infinity) {
        factors[3 * k] = 1;
        factors[3 * k + 1] = Math.sqrt(diffusion * dt);
        factors[3 * k + 2] = 0.5 * dt;
        residualVariance += (diffusion * dt * dt * dt) / 12;
      } else {
        const step = relaxationStep(dt / time);
        factors[3 * k] = step.decay;
        factors[3 * k + 1] = Math.sqrt(diffusion * time * step.spread);
        factors[3 * k + 2] = time * step.weight;
        residualVariance += diffusion * time * time * time * step.residual;
      }
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
