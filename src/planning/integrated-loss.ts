/**
 * What an exponential decay falls short of its straight start, integrated.
 *
 *   u − 1 + e^{−u}: the variance of ∫y over u time constants of a relaxation process of unit variance is twice this
 *
 * @param u - time over time constant; dimensionless, >= 0
 * @returns the loss; dimensionless, without cancellation where u is small
 *
 * Source: ∫(1 − e^{−v}) dv from 0 to u; its Taylor series below 1e-3. Exact case: 0 for u = 0.
 */
export function integratedLoss(u: number): number {
  return u < 1e-3 ? u * u * (0.5 - u / 6 + (u * u) / 24) : u + Math.expm1(-u);
}
