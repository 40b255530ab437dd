import { exp, lnGamma, log1p } from "../numeric/index.ts";

/** Cells of the table, even in w = t/(1 + t). */
const cells = 256;
/** Gauss–Legendre, three points: place in the cell and weight. */
const points = [
  [0.5 - Math.sqrt(0.15), 5 / 18],
  [0.5, 8 / 18],
  [0.5 + Math.sqrt(0.15), 5 / 18],
] as const;
let last: { readonly degrees: number; readonly cdf: (t: number) => number } | null = null;

/**
 * Distribution of Student's t with some degrees of freedom, for many arguments: cubic in t/(1 + |t|) between values
 * summed from the density.
 *
 * @param degrees - degrees of freedom; whole, >= 1
 * @returns P(T <= t), within 1e-8
 *
 * Source: Abramowitz & Stegun 26.7.1; Hermite interpolation. Exact case: ½ at 0; ½ + atan(t)/π with one degree.
 */
export function studentTable(degrees: number): (t: number) => number {
  if (last?.degrees !== degrees) last = { degrees, cdf: table(degrees) };
  return last.cdf;
}

function table(degrees: number): (t: number) => number {
  const half = 0.5 * (degrees + 1);
  const peak = exp(lnGamma(half) - lnGamma(0.5 * degrees)) / Math.sqrt(degrees * Math.PI);
  /** Density over a cell at a place w. */
  const density = (w: number) => {
    const rest = 1 - w;
    const t = w / rest;
    return (peak * exp(-half * log1p((t * t) / degrees))) / (rest * rest * cells);
  };
  const value = new Float64Array(cells + 1);
  const slope = new Float64Array(cells + 1);
  for (let i = 0; i < cells; i++) {
    let sum = 0;
    for (const [place, weight] of points) sum += weight * density((i + place) / cells);
    value[i + 1] = value[i]! + sum;
    slope[i] = density(i / cells);
  }
  // With one degree the density in w ends at a finite height.
  slope[cells] = degrees === 1 ? peak / cells : 0;
  return (t) => {
    const size = Math.abs(t);
    if (size === Infinity) return t > 0 ? 1 : 0;
    const at = (cells * size) / (1 + size);
    const i = Math.min(cells - 1, Math.floor(at));
    const u = at - i;
    const [a, b] = [value[i]!, value[i + 1]!];
    const [p, q] = [slope[i]!, slope[i + 1]!];
    const inside = a + u * (p + u * (3 * (b - a) - 2 * p - q + u * (2 * (a - b) + p + q)));
    return t < 0 ? 0.5 - inside : 0.5 + inside;
  };
}
