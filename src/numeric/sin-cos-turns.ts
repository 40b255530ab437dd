const twoPi = 2 * Math.PI;

/** sin t for |t| ≤ π/4, Taylor to t¹⁷. */
function sinNearZero(t: number): number {
  const z = t * t;
  const w = z * z;
  const low = -1 / 6 + z * (1 / 120);
  const middle = -1 / 5040 + z * (1 / 362880);
  const high = -1 / 39916800 + z * (1 / 6227020800) + w * (-1 / 1307674368000);
  return t + t * z * (low + w * (middle + w * high));
}

/** cos t for |t| ≤ π/4, Taylor to t¹⁶. */
function cosNearZero(t: number): number {
  const z = t * t;
  const w = z * z;
  const low = 1 / 24 - z * (1 / 720);
  const middle = 1 / 40320 - z * (1 / 3628800);
  const high = 1 / 479001600 - z * (1 / 87178291200) + w * (1 / 20922789888000);
  // 1 − z/2 is rounded; what the rounding lost is carried along.
  const half = 0.5 * z;
  const top = 1 - half;
  return top + (1 - top - half + w * (low + w * (middle + w * high)));
}

/**
 * Sine of an angle in turns, with the same bits on every engine.
 *
 *   sin(2π·x)
 *
 * @param x - angle; turns, any finite number (its whole turns are taken off without error)
 * @returns sin(2π·x), within 1.5 units in the last place; 0, ±1 exactly at quarters; NaN if not finite
 *
 * Source: Taylor series on an eighth of a turn, own arrangement. Exact case: sinTurns(1/4) = 1.
 */
export function sinTurns(x: number): number {
  const quarter = Math.floor(4 * x + 0.5);
  const t = (x - 0.25 * quarter) * twoPi;
  // Which quarter, without a 32-bit integer: x may be large.
  const which = quarter - 4 * Math.floor(0.25 * quarter);
  if (which === 0) {
    return sinNearZero(t);
  }
  if (which === 1) {
    return cosNearZero(t);
  }
  return which === 2 ? -sinNearZero(t) : -cosNearZero(t);
}

/**
 * Cosine of an angle in turns, with the same bits on every engine.
 *
 *   cos(2π·x)
 *
 * @param x - angle; turns, any finite number (its whole turns are taken off without error)
 * @returns cos(2π·x), within 1.5 units in the last place; 0, ±1 exactly at quarters; NaN if not finite
 *
 * Source: Taylor series on an eighth of a turn, own arrangement. Exact case: cosTurns(1/4) = 0.
 */
export function cosTurns(x: number): number {
  const quarter = Math.floor(4 * x + 0.5);
  const t = (x - 0.25 * quarter) * twoPi;
  const which = quarter - 4 * Math.floor(0.25 * quarter);
  if (which === 0) {
    return cosNearZero(t);
  }
  if (which === 1) {
    return -sinNearZero(t);
  }
  return which === 2 ? -cosNearZero(t) : sinNearZero(t);
}
