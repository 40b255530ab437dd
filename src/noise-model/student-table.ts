import { exp, incompleteBeta, lnGamma, log1p, normalCdf } from "../numeric/index.ts";

/** Grid of the table; standard deviations. */
const step = 1 / 32;
const reach = 8;

/** P(T <= t) for Student's t; the corrected normal of 26.7.8 beyond 1e5 degrees of freedom, good to 1e-10. */
export function studentCdf(t: number, degrees: number): number {
  if (degrees > 1e5) {
    return normalCdf((t * (1 - 1 / (4 * degrees))) / Math.sqrt(1 + (t * t) / (2 * degrees)));
  }
  const square = t * t;
  const outside = incompleteBeta(
    0.5 * degrees,
    0.5,
    degrees / (degrees + square),
    square / (degrees + square),
  );
  return t < 0 ? 0.5 * outside : 1 - 0.5 * outside;
}

/**
 * Distribution of Student's t with some degrees of freedom, for many arguments: cubic between exact values and slopes.
 *
 * @param degrees - degrees of freedom; > 0
 * @returns P(T <= t), within 1e-8
 *
 * Source: Abramowitz & Stegun 26.7.1, 26.7.8; Hermite interpolation. Exact case: ½ at 0.
 */
export function studentTable(degrees: number): (t: number) => number {
  const size = reach / step + 1;
  const value = new Float64Array(size);
  const slope = new Float64Array(size);
  const scale = lnGamma(0.5 * (degrees + 1)) - lnGamma(0.5 * degrees);
  const density = exp(scale) / Math.sqrt(degrees * Math.PI);
  for (let i = 0; i < size; i++) {
    const t = i * step;
    value[i] = studentCdf(t, degrees);
    slope[i] = step * density * exp(-0.5 * (degrees + 1) * log1p((t * t) / degrees));
  }
  return (t) => {
    const at = Math.abs(t) / step;
    if (!(at < size - 1)) return studentCdf(t, degrees);
    const i = Math.floor(at);
    const u = at - i;
    const [a, b] = [value[i]!, value[i + 1]!];
    const [p, q] = [slope[i]!, slope[i + 1]!];
    const inside = a + u * (p + u * (3 * (b - a) - 2 * p - q + u * (2 * (a - b) + p + q)));
    return t < 0 ? 1 - inside : inside;
  };
}
