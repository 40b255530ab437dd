import type { RelaxationBank } from "./relaxation-bank.ts";
import { termStep } from "./term-step.ts";

/** What is seen of a bank at each step: its summed integral over the step, or its sum at the end of it. */
export type Seen = "integral" | "sum";

/**
 * The processes of a bank on an even grid t_i = i·dt, i = 0…M, each with both its end values y(0), y(T) fixed.
 *
 *   mean of y(t_i) = a_i·y(0) + a_(M−i)·y(T),  a_i = decay(t_i)·V(T − t_i)/V(T)
 *   cov(y(t_i), y(t_j)) = decay(t_j − t_i)·V(t_i)·V(T − t_j)/V(T),  i <= j
 *
 * with V(t) the variance of y(t) given y(0). A reading o_j, j = 1…M, is the sum over the processes of
 * α·y(t_(j−1)) + β·y(t_j), and for integrals an independent rest: α = β = `weight` of a step; for sums α = 0,
 * β = 1. Nothing is subtracted, so that slow and fast processes alike keep their relative accuracy.
 *
 * Source: Gillespie, Phys. Rev. E 54, 2084 (1996), conditioned on y(T). Exact case: T = ∞ is the Brownian bridge.
 */
export class RelaxationBridge {
  /** Number of processes. */
  readonly terms: number;
  /** Steps M from one end to the other. */
  readonly steps: number;
  /** decay(t_i), V(t_i) and V(T − t_i)/V(T) of each process; n·(M + 1) numbers. */
  private readonly decays: Float64Array;
  private readonly variances: Float64Array;
  private readonly remainders: Float64Array;
  /** α and β of each process, and the variance of the rest. */
  private readonly onBefore: Float64Array;
  private readonly onAfter: Float64Array;
  private readonly rest: number;

  /**
   * @param bank - the processes
   * @param seen - what a reading is
   * @param dt - step; s, > 0
   * @param steps - M; integer, >= 1
   */
  constructor(bank: RelaxationBank, seen: Seen, dt: number, steps: number) {
    const { timeConstants, diffusions } = bank;
    this.terms = timeConstants.length;
    this.steps = steps;
    const count = this.terms * (steps + 1);
    this.decays = new Float64Array(count);
    this.variances = new Float64Array(count);
    this.remainders = new Float64Array(count);
    timeConstants.forEach((time, k) => {
      const whole = termStep(time, steps * dt).spread;
      for (let i = 0; i <= steps; i++) {
        const at = k * (steps + 1) + i;
        const { decay, spread } = termStep(time, i * dt);
        this.decays[at] = decay;
        this.variances[at] = diffusions[k]! * spread;
        this.remainders[at] = termStep(time, (steps - i) * dt).spread / whole;
      }
    });
    const isSum = seen === "sum";
    const weights = timeConstants.map((time) => termStep(time, dt).weight);
    this.onBefore = isSum ? new Float64Array(this.terms) : weights;
    this.onAfter = isSum ? new Float64Array(this.terms).fill(1) : weights;
    this.rest = isSum ? 0 : bank.step(dt).residualVariance;
  }

  /** decay(t_i) of process k. */
  decay(k: number, i: number): number {
    return this.decays[k * (this.steps + 1) + i]!;
  }

  /** V(t_i) of process k: variance of y(t_i) given y(0) alone. */
  variance(k: number, i: number): number {
    return this.variances[k * (this.steps + 1) + i]!;
  }

  /** a_i of process k: the weight of y(0) in the mean of y(t_i), and of y(T) in that of y(T − t_i). */
  share(k: number, i: number): number {
    const at = k * (this.steps + 1) + i;
    return this.decays[at]! * this.remainders[at]!;
  }

  /** Weight of y(0) of process k in the mean of reading j. */
  startWeight(k: number, j: number): number {
    return this.onBefore[k]! * this.share(k, j - 1) + this.onAfter[k]! * this.share(k, j);
  }

  /** Weight of y(T) of process k in the mean of reading j. */
  endWeight(k: number, j: number): number {
    const { steps } = this;
    return (
      this.onBefore[k]! * this.share(k, steps - j + 1) + this.onAfter[k]! * this.share(k, steps - j)
    );
  }

  /** Covariance of process k at t_i and reading j, given the end values. */
  valueCovariance(k: number, i: number, j: number): number {
    return (
      this.onBefore[k]! * this.covariance(k, i, j - 1) + this.onAfter[k]! * this.covariance(k, i, j)
    );
  }

  /** Covariance of the readings i and j, given the end values. */
  readingCovariance(i: number, j: number): number {
    let sum = i === j ? this.rest : 0;
    for (let k = 0; k < this.terms; k++) {
      sum +=
        this.onBefore[k]! * this.valueCovariance(k, i - 1, j) +
        this.onAfter[k]! * this.valueCovariance(k, i, j);
    }
    return sum;
  }

  /** Covariance of process k at t_i and at t_j, given the end values. */
  private covariance(k: number, i: number, j: number): number {
    const row = k * (this.steps + 1);
    const first = Math.min(i, j);
    const second = Math.max(i, j);
    return (
      this.decays[row + second - first]! *
      this.variances[row + first]! *
      this.remainders[row + second]!
    );
  }
}
