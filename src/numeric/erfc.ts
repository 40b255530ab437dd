import { exp, expOfSum } from "./portable-exp.ts";
import { twoProductError } from "./two-product.ts";

/** Nodes of the rule are (k + ½)·h with h = ½; its error is of the order exp(−π²/h²) = 7e-18. */
const nodeCount = 13;
const nodeSquares = new Float64Array(nodeCount);
const nodeWeights = new Float64Array(nodeCount);
for (let k = 0; k < nodeCount; k++) {
  const node = 0.5 * (k + 0.5);
  nodeSquares[k] = node * node;
  nodeWeights[k] = exp(-node * node) / Math.PI;
}

/** Beyond x = π/h the pole of the integrand lies outside and no longer counts. */
const poleLimit = 2 * Math.PI;

/** Its midpoint-rule part: x/π·Σ exp(−t²)/(t² + x²) over the nodes t; x ≥ 0. */
function midpointSum(x: number): number {
  const square = x * x;
  let sum = 0;
  for (let k = nodeCount - 1; k >= 0; k--) {
    sum += nodeWeights[k]! / (nodeSquares[k]! + square);
  }
  return x * sum;
}

/** exp(x²) or exp(−x²), with what squaring rounds away put back; |x| < 1e150. */
function expOfSquare(x: number, sign: number): number {
  const square = x * x;
  return expOfSum(sign * square, sign * twoProductError(x, x, square));
}

/**
 * Complementary error function.
 *
 *   erfc x = 2/√π·∫ exp(−t²) dt from x to ∞
 *
 * @param x - argument; any number
 * @returns erfc x, 0 … 2; relative error below 2e-15 as far as the result is a normal number
 *
 * Source: midpoint rule for the integral DLMF 7.7.1 with the pole's contribution, F. Matta, A. Reichel,
 * "Uniform computation of the error function and other related functions", Math. Comp. 25, 1971; all
 * terms are positive, so that nothing cancels. Exact case: erfc 0 = 1.
 */
export function erfc(x: number): number {
  if (x < 0) {
    return 2 - erfc(-x);
  }
  if (x > 27.3) {
    return 0;
  }
  const body = expOfSquare(x, -1) * midpointSum(x);
  return x < poleLimit ? body + 2 / (1 + exp(2 * poleLimit * x)) : body;
}

/**
 * Scaled complementary error function, which neither underflows nor cancels for large x.
 *
 *   erfcx x = exp(x²)·erfc x, about 1/(x·√π) for large x
 *
 * @param x - argument; any number
 * @returns erfcx x > 0; relative error below 2e-15; ∞ below −26.6
 *
 * Source: as `erfc`. Exact case: erfcx 0 = 1.
 */
export function erfcx(x: number): number {
  if (x < 0) {
    return x < -26.7 ? Infinity : 2 * expOfSquare(x, 1) - erfcx(-x);
  }
  if (x > 1e8) {
    // Two terms of the asymptotic series are 1e-16 apart from here on.
    return 0.5641895835477563 / x;
  }
  const body = midpointSum(x);
  return x < poleLimit ? body + (2 * expOfSquare(x, 1)) / (1 + exp(2 * poleLimit * x)) : body;
}
