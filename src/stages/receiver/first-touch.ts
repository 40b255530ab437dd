import { exp } from "../../numeric/index.ts";
import type { Deviates } from "./deviates.ts";

/** A touch less likely than e^−40 = 4e-18 is taken as none. */
const surelyApart = 40;

/**
 * Whether a Brownian bridge stays apart from a line, with probability 1 − e⁻ˣ, x = product/s.
 *
 * @param product - 2·d₀·d₁, twice the product of the distances at its ends; V²
 * @param s - variance gathered from end to end; V²
 * @param deviates - deviates
 * @returns whether it does
 *
 * Source: reflection principle.
 */
export function staysApart(product: number, s: number, deviates: Deviates): boolean {
  if (product >= surelyApart * s) return true;
  const u = deviates.uniform();
  // Most cases are decided by 1 − x <= e⁻ˣ <= 1/(1 + x + x²/2).
  if (u * (s * (s + product) + 0.5 * product * product) >= s * s) return true;
  return u * s > s - product && u > exp(-product / s);
}

/**
 * The moment of the first touch of a line by a Brownian bridge that touches it, as a fraction f of its length:
 * f = r/(1 + r), r inverse Gaussian with mean d₀/|d₁| and shape d₀²/s (the density ∝ f^(−3/2)·(1 − f)^(−1/2)·
 * exp(−d₀²/(2s·f) − d₁²/(2s·(1 − f))) in the variable r; by reflection the end may lie on either side).
 *
 * @param d0 - distance of its start from the line; V, > 0
 * @param d1 - that of its end, of either sign; V
 * @param s - variance gathered from end to end; V²
 * @param deviates - deviates
 * @returns f, from 0 to 1
 *
 * Source: inverse Gaussian deviates after J. R. Michael, W. R. Schucany, R. W. Haas, "Generating Random Variates Using
 * Transformations with Multiple Roots", Amer. Statist. 30, 1976, with the smaller root written without cancellation.
 */
export function firstTouch(d0: number, d1: number, s: number, deviates: Deviates): number {
  const away = Math.max(Math.abs(d1), 1e-100);
  // The roots of the inverse Gaussian are d0/d1 times near/far and far/near, the first with
  // probability far/(near + far); written with one division.
  const g = deviates.normal();
  const near = 2 * d0 * away;
  const spread = g * g * s;
  const far = near + spread + Math.sqrt(spread * (2 * near + spread));
  const isNear = deviates.uniform() * (near + far) <= far;
  const passed = d0 * (isNear ? near : far);
  return passed / (away * (isNear ? far : near) + passed);
}
