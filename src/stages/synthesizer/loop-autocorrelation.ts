import { type Complex, type Decay, divide, multiply, squareRoot } from "../../theory/index.ts";

/** What a noise is before it meets the loop, as a polynomial in z = s² over 1 − z·T². */
export interface LoopInput {
  /** Coefficients of 1, z, z² in the numerator of the output spectrum, less the loop's own denominator. */
  readonly numerator: readonly [number, number, number];
  /** Time constant T of the input; s, or 0 where it is white or a random walk. */
  readonly timeConstant: number;
}

/** Natural angular frequency ω in rad/s and damping ζ of a type-2 second-order loop. */
export interface LoopConstants {
  readonly omega: number;
  readonly damping: number;
}

/**
 * Autocorrelation of the time error that a noise leaves at the output of a type-2 second-order loop.
 *
 *   Φ(s) = N(s²)/((1 − s²T²)·Q(s²)),  Q(z) = (z + ω²)² − 4ζ²ω²z,
 *   R(τ) = Σ over the poles p with Re p < 0 of Res Φ(p)·e^{pτ}
 *
 * @param loop - ω and ζ
 * @param input - numerator N, with the density of the input in it, and time constant T
 * @returns R(τ) as a sum of decays; s²
 *
 * Source: residue theorem on the two-sided spectrum. Exact cases (Gardner, Phaselock Techniques): N = −q·z gives
 * R(0) = q/(4ζω), N = q gives q/(4ζω³), N = q·(ω⁴ − 4ζ²ω²z) gives q·B_L·2 with B_L = (ω/2)(ζ + 1/(4ζ)).
 */
export function loopAutocorrelation(loop: LoopConstants, input: LoopInput): readonly Decay[] {
  const { omega } = loop;
  // At ζ = 1 the two poles coincide; a damping beside it by 1e-6 gives the same R(τ) to about that part.
  const damping = Math.abs(loop.damping - 1) < 1e-6 ? 1 + 1e-6 : loop.damping;
  const [n0, n1, n2] = input.numerator;
  const square = input.timeConstant * input.timeConstant;
  const numerator = (z: Complex): Complex => {
    const inner = { re: n1 + n2 * z.re, im: n2 * z.im };
    const product = multiply(inner, z);
    return { re: n0 + product.re, im: product.im };
  };
  const decayAt = (z: Complex, slope: Complex, times: number): Decay => {
    const root = squareRoot(z);
    const pole = { re: -root.re, im: -root.im };
    const residue = divide(numerator(z), multiply(slope, { re: 2 * pole.re, im: 2 * pole.im }));
    return { coefficient: { re: times * residue.re, im: times * residue.im }, pole };
  };

  // Q(z) = z² + 2ω²(1 − 2ζ²)z + ω⁴, its roots of the product ω⁴: so the smaller of two real ones keeps its digits.
  const middle = omega * omega * (2 * damping * damping - 1);
  const fourth = omega * omega * omega * omega;
  const discriminant = 4 * fourth * damping * damping * (damping * damping - 1);
  const spread = Math.sqrt(Math.abs(discriminant));
  const isReal = discriminant >= 0;
  const first = isReal ? { re: middle + spread, im: 0 } : { re: middle, im: spread };
  const second = isReal ? { re: fourth / first.re, im: 0 } : { re: middle, im: -spread };
  const minus = (a: Complex, b: Complex): Complex => ({ re: a.re - b.re, im: a.im - b.im });
  const atRoot = (z: Complex, other: Complex, times: number): Decay => {
    const passed = { re: 1 - square * z.re, im: -square * z.im };
    return decayAt(z, multiply(minus(z, other), passed), times);
  };
  // One of a conjugate pair stands for both.
  const decays = isReal
    ? [atRoot(first, second, 1), atRoot(second, first, 1)]
    : [atRoot(first, second, 2)];
  if (square > 0) {
    const z = { re: 1 / square, im: 0 };
    const q = multiply(minus(z, first), minus(z, second));
    decays.push(decayAt(z, { re: -square * q.re, im: 0 }, 1));
  }
  return decays;
}
