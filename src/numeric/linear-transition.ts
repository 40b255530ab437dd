/** Terms of the Taylor series: with a norm of ¼ a step the next is below 1e-17. */
const terms = 14;
const largestNorm = 0.25;
const mostDoublings = 200;

/** Exact transition of a linear system over one step. */
export interface LinearTransition {
  /** Φ = e^(F·dt), row by row; n×n numbers. */
  readonly transition: Float64Array;
  /** Q = ∫ e^(F·s)·D·e^(Fᵀ·s) ds over 0…dt, row by row, symmetric; n×n numbers. */
  readonly covariance: Float64Array;
}

/**
 * Exact transition of dX = F·X dt + G dW over a step of any length, D = G·Gᵀ.
 *
 *   X(t + dt) = Φ·X(t) + ξ,  cov ξ = Q
 *
 * The step is halved until the Taylor series of both converges at once, then doubled back:
 * E ← 2E + E² with E = Φ − 1, Q ← Φ·Q·Φᵀ + Q. Only sums of covariances occur, so nothing is lost in stiff
 * systems, where the block exponential of Van Loan overflows; and slow parts keep their relative
 * accuracy since the unit matrix is never added.
 *
 * @param drift - F, row by row; n×n numbers, 1/s
 * @param diffusion - D, row by row, symmetric positive semidefinite; n×n numbers, unit²/s
 * @param n - order; integer, >= 1
 * @param dt - step; s, > 0
 * @returns Φ and Q
 * @throws RangeError if a matrix has not n×n numbers, dt is not above 0, or F·dt is not finite
 *
 * Source: covariance integral: Van Loan, IEEE Trans. Automatic Control 23, 395 (1978); doubling: Moler &
 * Van Loan, SIAM Review 45, 3 (2003), method 3. Exact case: F = 0 gives Φ = 1, Q = D·dt.
 */
export function linearTransition(
  drift: Float64Array,
  diffusion: Float64Array,
  n: number,
  dt: number,
): LinearTransition {
  if (drift.length !== n * n || diffusion.length !== n * n) {
    throw new RangeError(
      `linearTransition: drift and diffusion must hold ${n * n} numbers, got ${drift.length} and ${diffusion.length}`,
    );
  }
  if (!(dt > 0)) {
    throw new RangeError(`linearTransition: dt must be > 0 s, got ${dt}`);
  }
  let norm = 0;
  for (let i = 0; i < n; i++) {
    let row = 0;
    for (let j = 0; j < n; j++) {
      row += Math.abs(drift[i * n + j]!);
    }
    norm = Math.max(norm, row);
  }
  let h = dt;
  let doublings = 0;
  while (!(norm * h <= largestNorm)) {
    h *= 0.5;
    doublings += 1;
    if (doublings > mostDoublings) {
      throw new RangeError(`linearTransition: drift times dt must be finite, got ${norm * dt}`);
    }
  }
  // Taylor: E = Σ (F·h)^m/m!, and Q = Σ L^m(D)·h^(m+1)/(m+1)! with L(Q) = F·Q + Q·Fᵀ.
  const excess = new Float64Array(n * n);
  const covariance = new Float64Array(n * n);
  const power = drift.map((value) => value * h);
  const spread = diffusion.map((value) => value * h);
  const left = new Float64Array(n * n);
  const right = new Float64Array(n * n);
  for (let m = 1; m <= terms; m++) {
    multiply(left, drift, power, n);
    multiply(right, drift, spread, n);
    const scale = h / (m + 1);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        const at = i * n + j;
        excess[at] = excess[at]! + power[at]!;
        covariance[at] = covariance[at]! + spread[at]!;
        power[at] = left[at]! * scale;
        spread[at] = (right[at]! + right[j * n + i]!) * scale;
      }
    }
  }
  const phi = power;
  for (let k = 0; k < doublings; k++) {
    // Φ·Q·Φᵀ by Φ itself: with E it would cancel where Φ is small.
    plusUnit(phi, excess, n);
    multiply(left, phi, covariance, n);
    multiplyTransposed(right, left, phi, n);
    multiply(left, excess, excess, n);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j <= i; j++) {
        const sum = covariance[i * n + j]! + 0.5 * (right[i * n + j]! + right[j * n + i]!);
        covariance[i * n + j] = sum;
        covariance[j * n + i] = sum;
      }
    }
    for (let at = 0; at < excess.length; at++) {
      excess[at] = 2 * excess[at]! + left[at]!;
    }
  }
  plusUnit(phi, excess, n);
  return { transition: phi, covariance };
}

/** product = A·B of n×n matrices. */
function multiply(product: Float64Array, a: Float64Array, b: Float64Array, n: number): void {
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      let sum = 0;
      for (let k = 0; k < n; k++) {
        sum += a[i * n + k]! * b[k * n + j]!;
      }
      product[i * n + j] = sum;
    }
  }
}

/** product = A·Bᵀ of n×n matrices. */
function multiplyTransposed(
  product: Float64Array,
  a: Float64Array,
  b: Float64Array,
  n: number,
): void {
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      let sum = 0;
      for (let k = 0; k < n; k++) {
        sum += a[i * n + k]! * b[j * n + k]!;
      }
      product[i * n + j] = sum;
    }
  }
}

/** sum = E + 1. */
function plusUnit(sum: Float64Array, e: Float64Array, n: number): void {
  sum.set(e);
  for (let at = 0; at < sum.length; at += n + 1) {
    sum[at] = 1 + sum[at]!;
  }
}
