import type { LoopGains } from "./loop-response.ts";

/** Covariance of the loop's error e and integrator z: (e,e), (e,z), (z,z). */
export interface LoopCovariance {
  readonly ee: number;
  readonly ez: number;
  readonly zz: number;
}

/**
 * Stationary covariance of a loop driven by white noise.
 *
 *   A·P + P·Aᵀ + M = 0,  A = [[−K_p, −1], [K_i, 0]]
 *
 * @param gains - K_p in 1/s, K_i in 1/s²
 * @param drive - M, the diffusion of (e, z); s²/s, s²/s², s²/s³
 * @returns P, the covariance of (e, z)
 *
 * Source: Lyapunov's equation written out. Exact case: M_ee = q alone gives P_ee = q/(2·K_p) = q/(4ζω)
 * (Gardner, Phaselock Techniques, for white FM of the oscillator).
 */
export function whiteVariance(gains: LoopGains, drive: LoopCovariance): LoopCovariance {
  const ez = (-0.5 * drive.zz) / gains.integral;
  const ee = (0.5 * drive.ee - ez) / gains.proportional;
  return { ee, ez, zz: gains.integral * ee - gains.proportional * ez + drive.ez };
}

/** A relaxation process at the input of a loop, with all that becomes of it when it is stationary. */
export interface RelaxationVariance {
  /** Covariance of (e, z). */
  readonly covariance: LoopCovariance;
  /** Covariance of e and the process. */
  readonly errorInput: number;
  /** Covariance of z and the process. */
  readonly integratorInput: number;
}

/**
 * Stationary covariance of a loop driven by a relaxation process of variance v.
 *
 *   (e, z)' = A·(e, z) + b·y,  y' = −y/T + noise
 *   c = cov((e, z), y) = (1/T − A)⁻¹·b·v;  A·P + P·Aᵀ + b·cᵀ + c·bᵀ = 0
 *
 * @param gains - K_p in 1/s, K_i in 1/s²
 * @param timeConstant - T; s, > 0 and finite
 * @param variance - v; unit of the process², >= 0
 * @param onError - b_e, how the process enters e'
 * @param onIntegrator - b_z, how it enters z'
 * @returns covariances of (e, z) with itself and with the process
 *
 * Source: own derivation; linear system theory. Exact case: T → 0 with 2vT = q tends to `whiteVariance`.
 */
export function relaxationVariance(
  gains: LoopGains,
  timeConstant: number,
  variance: number,
  onError: number,
  onIntegrator: number,
): RelaxationVariance {
  const { proportional, integral } = gains;
  const rate = 1 / timeConstant;
  const scale = variance / (rate * rate + proportional * rate + integral);
  const errorInput = scale * (rate * onError - onIntegrator);
  const integratorInput = scale * (integral * onError + (rate + proportional) * onIntegrator);
  const covariance = whiteVariance(gains, {
    ee: 2 * onError * errorInput,
    ez: onError * integratorInput + onIntegrator * errorInput,
    zz: 2 * onIntegrator * integratorInput,
  });
  return { covariance, errorInput, integratorInput };
}
