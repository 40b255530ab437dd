import { cholesky, type LinearTransition, linearTransition } from "../../numeric/index.ts";
import type { LoopEntry } from "./loop-inputs.ts";
import type { LoopGains } from "./loop-response.ts";

/** A group of relaxation processes that the loop follows and that enter it in the same way. */
export interface LoopGroup {
  readonly timeConstants: Float64Array;
  readonly diffusions: Float64Array;
  readonly entry: LoopEntry;
  /** Whether the group's integral is part of the reference's time error, known from outside. */
  readonly makesReferenceTime: boolean;
}

/** White noises of the loop: frequency noise of reference and own oscillator, time noise of the detector. */
export interface LoopWhite {
  /** 1/Hz */
  readonly referenceLevel: number;
  /** 1/Hz */
  readonly ownLevel: number;
  /** One-sided S_x; s²/Hz */
  readonly detectorDensity: number;
}

/** Coefficients of one exact step of the loop's state (e, z). */
export interface LoopStep {
  /** Φ of (e, z): ee, ez, ze, zz; then gains on the reference's pooled residual: e, z; then L: ee, ze, zz. */
  readonly factors: Float64Array;
  /** For each group, four numbers a process: its start value into e and z, its end value into e and z. */
  readonly groupFactors: readonly Float64Array[];
}

/**
 * Where the loop hardly moves in a step, e is nearly the reference's time error and z nearly fixed by
 * both; what is left is found by subtraction, to 1e-15 of the variance. Below the root of that it would spoil
 * the next pivot, so it counts as zero: less than 1e-7 of the variance is lost.
 */
const rounding = 1e-7;

/** State order of a step's linear system. */
const order = 4;
const [y, x, e, z] = [0, 1, 2, 3];

/**
 * Transition of the enlarged linear system (y, x, e, z) over one step.
 *
 *   y' = −y/T + √D·W',  x' = y,  e' = b_e·y − K_p·e − z,  z' = b_z·y + K_i·e
 *
 * x is the part of the reference's time error that the process makes, or stays 0. White noise enters through
 * `white`, with y left out.
 */
function transition(
  gains: LoopGains,
  dt: number,
  source: { time: number; diffusion: number; entry: LoopEntry; makesTime: boolean } | null,
  white: LoopWhite | null,
): LinearTransition {
  const drift = new Float64Array(order * order);
  const diffusion = new Float64Array(order * order);
  drift[e * order + e] = -gains.proportional;
  drift[e * order + z] = -1;
  drift[z * order + e] = gains.integral;
  if (source) {
    drift[y * order + y] = -1 / source.time;
    drift[x * order + y] = source.makesTime ? 1 : 0;
    drift[e * order + y] = source.entry.onError;
    drift[z * order + y] = source.entry.onIntegrator;
    diffusion[y * order + y] = source.diffusion;
  }
  if (white) {
    const reference = 0.5 * white.referenceLevel;
    const detector = 0.5 * white.detectorDensity;
    const { proportional, integral } = gains;
    diffusion[x * order + x] = reference;
    diffusion[x * order + e] = reference;
    diffusion[e * order + x] = reference;
    diffusion[e * order + e] =
      reference + 0.5 * white.ownLevel + proportional * proportional * detector;
    diffusion[e * order + z] = -proportional * integral * detector;
    diffusion[z * order + e] = diffusion[e * order + z]!;
    diffusion[z * order + z] = integral * integral * detector;
  }
  return linearTransition(drift, diffusion, order, dt);
}

/**
 * Coefficients of one exact step of a loop, given both end values of every process that drives it and what
 * the reference drew beside them.
 *
 * Each process of a group adds Φ·y₀ conditioned on y₁: c₀·y₀ + c₁·y₁ and a residual; all residuals and the
 * white noises add up to one Gaussian of (x, e, z), of which the reference has drawn x already; (e, z) given x
 * is then two deviates by Cholesky's factor.
 *
 * @param gains - K_p in 1/s and K_i in 1/s²
 * @param groups - groups of coloured noise
 * @param white - white noises
 * @param pooledVariance - variance of the reference's pooled residual over the step; s²
 * @param dt - step; s, > 0
 * @returns the coefficients
 *
 * Source: Gaussian conditioning; transition by `linearTransition`. Exact case: dt = 2h in one step has the
 * covariance of two steps h.
 */
export function loopStep(
  gains: LoopGains,
  groups: readonly LoopGroup[],
  white: LoopWhite,
  pooledVariance: number,
  dt: number,
): LoopStep {
  const plain = transition(gains, dt, null, white);
  const residual = Float64Array.from(plain.covariance);
  const groupFactors = groups.map((group) => {
    const factors = new Float64Array(4 * group.timeConstants.length);
    group.timeConstants.forEach((time, k) => {
      const { transition: phi, covariance } = transition(
        gains,
        dt,
        {
          time,
          diffusion: group.diffusions[k]!,
          entry: group.entry,
          makesTime: group.makesReferenceTime,
        },
        null,
      );
      const spread = covariance[y * order + y]!;
      const gain = (row: number) => (spread > 0 ? covariance[row * order + y]! / spread : 0);
      const start = (row: number) => phi[row * order + y]! - gain(row) * phi[y * order + y]!;
      factors.set([start(e), start(z), gain(e), gain(z)], 4 * k);
      for (let row = x; row < order; row++) {
        for (let column = x; column < order; column++) {
          const at = row * order + column;
          residual[at] =
            residual[at]! + covariance[at]! - gain(row) * covariance[y * order + column]!;
        }
      }
    });
    return factors;
  });
  const root = cholesky(
    Float64Array.of(
      pooledVariance,
      residual[x * order + e]!,
      residual[x * order + z]!,
      residual[e * order + x]!,
      residual[e * order + e]!,
      residual[e * order + z]!,
      residual[z * order + x]!,
      residual[z * order + e]!,
      residual[z * order + z]!,
    ),
    3,
    rounding,
  );
  const perTime = root[0]! > 0 ? 1 / root[0]! : 0;
  const phi = plain.transition;
  return {
    factors: Float64Array.of(
      phi[e * order + e]!,
      phi[e * order + z]!,
      phi[z * order + e]!,
      phi[z * order + z]!,
      root[3]! * perTime,
      root[6]! * perTime,
      root[4]!,
      root[7]!,
      root[8]!,
    ),
    groupFactors,
  };
}
