import { radixTransform, reversedPlaces, transformReversed } from "./radix-transform.ts";

/** What a transform of one length needs whatever its samples are. */
interface Chirp {
  /** e^{jπi²/n}; n values. */
  readonly cos: Float64Array;
  readonly sin: Float64Array;
  /** The transform of the same over −n < i < n, wrapped around a power of two. */
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** Where the stages of the power of two want their samples. */
  readonly places: Int32Array;
  /** Room for the samples and for the product, real and imaginary, so that a transform allocates nothing. */
  readonly room: readonly [Float64Array, Float64Array, Float64Array, Float64Array];
}

/** The chirp of the latest length is kept, as runs of an ensemble are of one length; a long one is not. */
const longestKept = 1 << 17;
let kept: Chirp | null = null;

/**
 * Discrete Fourier transform in place, of any length: ki = (k² + i² − (k − i)²)/2 turns it into a convolution,
 * done at a power of two.
 *
 * @param re - real parts, overwritten; n >= 1 samples
 * @param im - imaginary parts, overwritten; n samples
 *
 * Source: Bluestein, IEEE Trans. Audio Electroacoust. 18, 451 (1970). Exact case: an impulse at 0 gives 1
 * everywhere.
 */
export function chirpTransform(re: Float64Array, im: Float64Array): void {
  const n = re.length;
  const chirp = chirpOf(n);
  const { cos, sin, re: br, im: bi, places } = chirp;
  const m = br.length;
  const [ar, ai, pr, pi] = chirp.room;
  ar.fill(0);
  ai.fill(0);
  for (let i = 0; i < n; i++) {
    const place = places[i]!;
    ar[place] = re[i]! * cos[i]! + im[i]! * sin[i]!;
    ai[place] = im[i]! * cos[i]! - re[i]! * sin[i]!;
  }
  transformReversed(ar, ai);
  for (let i = 0; i < m; i++) {
    const place = places[i]!;
    pr[place] = ar[i]! * br[i]! - ai[i]! * bi[i]!;
    pi[place] = ar[i]! * bi[i]! + ai[i]! * br[i]!;
  }
  // The inverse transform is the forward one with real and imaginary parts exchanged.
  transformReversed(pi, pr);
  for (let i = 0; i < n; i++) {
    const a = pr[i]! / m;
    const b = pi[i]! / m;
    re[i] = a * cos[i]! + b * sin[i]!;
    im[i] = b * cos[i]! - a * sin[i]!;
  }
}

function chirpOf(n: number): Chirp {
  if (kept?.cos.length === n) return kept;
  let m = 1;
  while (m < 2 * n - 1) m *= 2;
  const cos = new Float64Array(n);
  const sin = new Float64Array(n);
  // i² modulo 2n, kept exact by adding odd numbers.
  for (let i = 0, square = 0; i < n; square = (square + 2 * i + 1) % (2 * n), i++) {
    cos[i] = Math.cos((Math.PI * square) / n);
    sin[i] = Math.sin((Math.PI * square) / n);
  }
  const re = new Float64Array(m);
  const im = new Float64Array(m);
  for (let i = 0; i < n; i++) {
    re[i] = cos[i]!;
    im[i] = sin[i]!;
    if (i > 0) {
      re[m - i] = cos[i]!;
      im[m - i] = sin[i]!;
    }
  }
  radixTransform(re, im);
  const empty = () => new Float64Array(m);
  const chirp: Chirp = {
    cos,
    sin,
    re,
    im,
    places: reversedPlaces(m),
    room: [empty(), empty(), empty(), empty()],
  };
  if (m <= longestKept) kept = chirp;
  return chirp;
}
