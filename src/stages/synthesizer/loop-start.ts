import type { RelaxationBank } from "../../noise/index.ts";
import { cholesky } from "../../numeric/index.ts";
import type { LoopGains } from "./loop-response.ts";
import type { LoopGroup, LoopWhite } from "./loop-step.ts";
import { relaxationVariance, whiteVariance } from "./stationary-variance.ts";

/** Distribution of a loop's state (e, z) that has run for ever, given what drives it now. */
export interface LoopStart {
  /** Mean of e and z. */
  readonly mean: Float64Array;
  /** Lower Cholesky factor of their covariance, row by row. */
  readonly root: Float64Array;
}

/**
 * The stationary state of a loop, given the values now of the processes that drive it.
 *
 * Each relaxation process y of variance v gives (e, z) the mean cov((e, z), y)·y/v and a covariance less by
 * cov·covᵀ/v. Of a random walk w the integrator holds b_e·w, and (e, z − b_e·w) is driven by white noise.
 *
 * @param gains - K_p in 1/s and K_i in 1/s²
 * @param groups - groups of coloured noise, as of a step
 * @param white - white noises
 * @param banks - the processes of each group with their values
 * @returns mean and factor of the covariance of (e, z); s and dimensionless
 *
 * Source: Gaussian conditioning; Lyapunov's equation. Exact case: without noise all is 0.
 */
export function loopStart(
  gains: LoopGains,
  groups: readonly LoopGroup[],
  white: LoopWhite,
  banks: readonly RelaxationBank[],
): LoopStart {
  const { proportional, integral } = gains;
  const detector = 0.5 * white.detectorDensity;
  const flat = whiteVariance(gains, {
    ee: 0.5 * (white.referenceLevel + white.ownLevel) + proportional * proportional * detector,
    ez: -proportional * integral * detector,
    zz: integral * integral * detector,
  });
  let { ee, ez, zz } = flat;
  const mean = new Float64Array(2);
  groups.forEach((group, g) => {
    const { onError, onIntegrator } = group.entry;
    group.timeConstants.forEach((time, k) => {
      const diffusion = group.diffusions[k]!;
      const value = banks[g]!.after[k]!;
      if (time === Infinity) {
        const walk = whiteVariance(gains, { ee: 0, ez: 0, zz: onError * onError * diffusion });
        ee += walk.ee;
        ez += walk.ez;
        zz += walk.zz;
        mean[1] = mean[1]! + onError * value;
      } else {
        const variance = 0.5 * diffusion * time;
        const unit = relaxationVariance(gains, time, 1, onError, onIntegrator);
        const { covariance, errorInput, integratorInput } = unit;
        ee += variance * (covariance.ee - errorInput * errorInput);
        ez += variance * (covariance.ez - errorInput * integratorInput);
        zz += variance * (covariance.zz - integratorInput * integratorInput);
        mean[0] = mean[0]! + errorInput * value;
        mean[1] = mean[1]! + integratorInput * value;
      }
    });
  });
  return { mean, root: cholesky(Float64Array.of(ee, ez, ez, zz), 2) };
}
