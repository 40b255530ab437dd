/**
 * Root of a monotone function by Newton's steps, kept within a shrinking bracket.
 *
 *   u with f(u) = 0
 *
 * @param f - function, increasing or decreasing over the bracket
 * @param slope - derivative of f, rough is enough
 * @param low - lower end of the bracket
 * @param high - upper end; f(low) and f(high) of opposite sign
 * @param start - first guess, within the bracket
 * @returns the root, to a few units in the last place of u or where f no longer resolves it
 *
 * Source: Newton's method with bisection as its safeguard, textbook method. Exact case: any linear f in one step.
 */
export function monotoneRoot(
  f: (u: number) => number,
  slope: (u: number) => number,
  low: number,
  high: number,
  start: number,
): number {
  let below = low;
  let above = high;
  const rising = f(high) > 0;
  let u = start;
  for (let step = 0; step < 200; step++) {
    const value = f(u);
    if (value === 0) {
      return u;
    }
    if (value > 0 === rising) {
      above = u;
    } else {
      below = u;
    }
    let next = u - value / slope(u);
    if (!(next > below && next < above)) {
      next = 0.5 * (below + above);
    }
    if (Math.abs(next - u) <= 4e-16 * Math.max(1, Math.abs(u))) {
      return next;
    }
    u = next;
  }
  return u;
}
