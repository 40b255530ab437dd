import { chirpTransform } from "./chirp-transform.ts";
import { radixTransform } from "./radix-transform.ts";

/**
 * Discrete Fourier transform in place, of any length.
 *
 *   X[k] = Σ_{i=0}^{n−1} (re[i] + j·im[i]) · e^{−2πjki/n}
 *
 * @param re - real parts, overwritten by those of X; n >= 1 samples, any unit
 * @param im - imaginary parts, overwritten; n samples, the same unit
 * @throws RangeError if the two differ in length or are empty
 *
 * Source: Cooley & Tukey, Math. Comp. 19, 297 (1965) for powers of two; Bluestein, IEEE Trans. Audio
 * Electroacoust. 18, 451 (1970) for other lengths. Exact case: an impulse at 0 gives X[k] = 1.
 */
export function fourierTransform(re: Float64Array, im: Float64Array): void {
  const n = re.length;
  if (n === 0 || im.length !== n) {
    throw new RangeError(
      `fourierTransform: im must be as long as re and not empty, got ${im.length} and ${n}`,
    );
  }
  if ((n & (n - 1)) === 0) radixTransform(re, im);
  else chirpTransform(re, im);
}
