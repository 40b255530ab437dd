import type { NoiseType } from "./noise-type.ts";

const eulerGamma = 0.5772156649015329;

/**
 * Generalised autocovariance of the time error of power-law noise, up to scale and an additive polynomial.
 *
 *   white PM: 1 at t = 0, else 0 · flicker PM: −Cin(π·c·t) · white FM: −t · flicker FM: t²·ln t · random-walk FM: t³
 *
 * Only differences of it have a meaning: covariances of first differences of x for the first three types, of second
 * differences for all five. Flicker PM has a sharp upper cutoff f_h = c/2 in the unit of 1/t (c = 1, t in sampling
 * intervals: half the sampling rate); Cin(z) = ∫₀^z (1 − cos v)/v dv = γ + ln z − Ci(z).
 *
 * @param type - noise type
 * @param lag - t, any unit that suits the caller; >= 0
 * @param cutoff - c, twice the upper cutoff frequency times the unit of t; dimensionless, > 0; flicker PM only
 * @returns generalised autocovariance, arbitrary scale (dimensionless)
 *
 * Source: C. Greenhall and W. Riley, "Uncertainty of stability variances based on finite differences", PTTI 2003.
 */
export function timeErrorCovariance(type: NoiseType, lag: number, cutoff = 1): number {
  switch (type) {
    case "white_pm":
      return lag === 0 ? 1 : 0;
    case "flicker_pm":
      return -entireCosineIntegral(Math.PI * cutoff * lag);
    case "white_fm":
      return -lag;
    case "flicker_fm":
      return lag === 0 ? 0 : lag * lag * Math.log(lag);
    case "random_walk_fm":
      return lag * lag * lag;
  }
}

/**
 * Entire cosine integral.
 *
 *   Cin(z) = ∫₀^z (1 − cos v)/v dv = Σ_{k>=1} (−1)^{k+1} z^{2k} / (2k·(2k)!)
 *
 * Power series below z = 20, asymptotic series of Ci above.
 *
 * @param z - argument; dimensionless, >= 0
 * @returns Cin(z), to about 1e-9; dimensionless
 *
 * Source: Abramowitz and Stegun, 5.2.2, 5.2.16 and 5.2.34 ff. Exact: Cin(0) = 0.
 */
export function entireCosineIntegral(z: number): number {
  const square = z * z;
  if (z < 20) {
    let power = 1;
    let sum = 0;
    for (let k = 1; k < 70; k++) {
      power *= -square / ((2 * k - 1) * (2 * k));
      sum -= power / (2 * k);
    }
    return sum;
  }
  // Ci(z) = (sin z / z)·F − (cos z / z²)·G; both series are cut where their terms are least or vanish.
  let f = 1;
  let g = 1;
  let termF = 1;
  let termG = 1;
  for (let k = 1; 2 * k + 1 < z && k < 11; k++) {
    termF *= -((2 * k - 1) * (2 * k)) / square;
    termG *= -(2 * k * (2 * k + 1)) / square;
    f += termF;
    g += termG;
  }
  const cosineIntegral = (Math.sin(z) * f) / z - (Math.cos(z) * g) / square;
  return eulerGamma + Math.log(z) - cosineIntegral;
}
