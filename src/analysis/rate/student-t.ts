/**
 * Probability that Student's t lies within ±t: P(|T| <= t) = 1 − I_{ν/(ν+t²)}(ν/2, 1/2).
 *
 * @param t - limit; dimensionless, >= 0
 * @param dof - degrees of freedom ν; > 0, Infinity for the normal distribution
 * @returns the probability; dimensionless, 0 to 1
 * @throws RangeError if t or dof is outside its range
 *
 * Source: Abramowitz & Stegun, 26.7.1 and 26.5.8 (continued fraction of the incomplete beta function).
 * Exact case: one degree of freedom, P = (2/π)·atan t.
 */
export function studentWithin(t: number, dof: number): number {
  if (!(t >= 0)) throw new RangeError(`studentWithin: t must be >= 0, got ${t}`);
  if (!(dof > 0)) throw new RangeError(`studentWithin: dof must be > 0, got ${dof}`);
  if (t === 0) return 0;
  if (t === Number.POSITIVE_INFINITY) return 1;
  // Beyond this the corrected normal agrees to 1e-12.
  if (dof > 1e6) return normalWithin(t * (1 - (t * t + 1) / (4 * dof)));
  const x = dof / (dof + t * t);
  return x < (dof / 2 + 1) / (dof / 2 + 2.5)
    ? 1 - incompleteBeta(x, dof / 2, 0.5)
    : incompleteBeta((t * t) / (dof + t * t), 0.5, dof / 2);
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

function normalWithin(t: number): number {
  // P(|Z| <= t) as the incomplete gamma function P(1/2, t²/2), by its series; 26.4.6, 6.5.29.
  const x = (t * t) / 2;
  if (x > 700) return 1;
  let term = 1;
  let sum = 1;
  for (let k = 1; term > 1e-17 * sum; k++) {
    term *= x / (0.5 + k);
    sum += term;
  }
  return Math.min(1, 2 * Math.sqrt(x / Math.PI) * Math.exp(-x) * sum);
}

function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const front = Math.exp(
    logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x),
  );
  return (front * betaFraction(x, a, b)) / a;
}

/** Continued fraction 26.5.8, evaluated by Lentz's method. */
function betaFraction(x: number, a: number, b: number): number {
  const tiny = 1e-300;
  let c = 1;
  let d = 1 - ((a + b) * x) / (a + 1);
  d = 1 / (Math.abs(d) < tiny ? tiny : d);
  let h = d;
  for (let m = 1; m <= 500; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 + even * d;
    c = 1 + even / c;
    d = 1 / (Math.abs(d) < tiny ? tiny : d);
    if (Math.abs(c) < tiny) c = tiny;
    h *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 + odd * d;
    c = 1 + odd / c;
    d = 1 / (Math.abs(d) < tiny ? tiny : d);
    if (Math.abs(c) < tiny) c = tiny;
    const factor = d * c;
    h *= factor;
    if (Math.abs(factor - 1) < 1e-15) break;
  }
  return h;
}

/** ln Γ(x) for x > 0: Stirling's series after shifting x above 10 (Abramowitz & Stegun 6.1.41). */
function logGamma(x: number): number {
  let shift = 0;
  let z = x;
  for (; z < 10; z++) shift += Math.log(z);
  const w = 1 / (z * z);
  const series = (1 / 12 - w * (1 / 360 - w * (1 / 1260 - w * (1 / 1680 - w / 1188)))) / z;
  return (z - 0.5) * Math.log(z) - z + 0.5 * Math.log(2 * Math.PI) + series - shift;
}
