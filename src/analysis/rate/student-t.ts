import { erfc, incompleteBeta } from "../../numeric/index.ts";

/**
 * Probability that Student's t lies within ±t: P(|T| <= t) = 1 − I_{ν/(ν+t²)}(ν/2, 1/2).
 *
 * @param t - limit; dimensionless, >= 0
 * @param dof - degrees of freedom ν; > 0, Infinity for the normal distribution
 * @returns the probability; dimensionless, 0 to 1
 * @throws RangeError if t or dof is outside its range
 *
 * Source: Abramowitz & Stegun, 26.7.1 and 26.7.8.
 * Exact case: one degree of freedom, P = (2/π)·atan t.
 */
export function studentWithin(t: number, dof: number): number {
  if (!(t >= 0)) throw new RangeError(`studentWithin: t must be >= 0, got ${t}`);
  if (!(dof > 0)) throw new RangeError(`studentWithin: dof must be > 0, got ${dof}`);
  if (t === 0) return 0;
  if (t === Number.POSITIVE_INFINITY) return 1;
  // Beyond this the corrected normal (26.7.8) agrees to 1e-12.
  if (dof > 1e6) {
    return 1 - erfc((t * (1 - 1 / (4 * dof))) / Math.hypot(Math.SQRT2, t / Math.sqrt(dof)));
  }
  const square = t * t;
  const [body, tail] = [square / (dof + square), dof / (dof + square)];
  return square < dof
    ? incompleteBeta(0.5, 0.5 * dof, body, tail)
    : 1 - incompleteBeta(0.5 * dof, 0.5, tail, body);
}

/**
 * Half-width that holds a stated share of a mixture of Student's t, all centred on zero.
 *
 * @param scale - scale of each part; any unit, >= 0
 * @param weight - its weight; dimensionless, >= 0, at least one > 0
 * @param dof - degrees of freedom of each part; > 0
 * @param share - probability to hold; dimensionless, 0 < share < 1
 * @returns the half-width, of the unit of scale
 * @throws RangeError if share is outside its range or no weight is positive
 *
 * Source: own derivation (false position on the mixture's distribution). Exact case: one part gives the
 * t quantile times its scale (JCGM 100:2008, Table G.2).
 */
export function mixtureHalfWidth(
  scale: ArrayLike<number>,
  weight: ArrayLike<number>,
  dof: ArrayLike<number>,
  share: number,
): number {
  if (!(share > 0 && share < 1)) {
    throw new RangeError(`mixtureHalfWidth: share must lie between 0 and 1, got ${share}`);
  }
  let total = 0;
  let largest = 0;
  for (let i = 0; i < scale.length; i++) {
    total += weight[i]!;
    if (weight[i]! > 0 && scale[i]! > largest) largest = scale[i]!;
  }
  if (!(total > 0)) throw new RangeError("mixtureHalfWidth: weight must hold a positive number");
  if (largest === 0) return 0;
  const within = (half: number) => {
    let sum = 0;
    for (let i = 0; i < scale.length; i++) {
      if (weight[i]! <= 1e-6 * total) continue;
      sum += weight[i]! * (scale[i]! > 0 ? studentWithin(half / scale[i]!, dof[i]!) : 1);
    }
    return sum / total;
  };
  let low = 0;
  let below = -share;
  let high = 2 * largest;
  let above = within(high) - share;
  while (above < 0 && high < 1e8 * largest) {
    low = high;
    below = above;
    high *= 2;
    above = within(high) - share;
  }
  // False position with halving of the end that stays (Illinois).
  let side = 0;
  for (let i = 0; i < 60 && high - low > 1e-6 * high; i++) {
    const middle = (low * above - high * below) / (above - below);
    const value = within(middle) - share;
    if (Math.abs(value) < 1e-7) return middle;
    if (value < 0) {
      low = middle;
      below = value;
      if (side === -1) above /= 2;
      side = -1;
    } else {
      high = middle;
      above = value;
      if (side === 1) below /= 2;
      side = 1;
    }
  }
  return (low + high) / 2;
}
