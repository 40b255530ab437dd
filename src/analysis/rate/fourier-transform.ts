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
  if ((n & (n - 1)) === 0) powerOfTwo(re, im);
  else bluestein(re, im);
}

function powerOfTwo(re: Float64Array, im: Float64Array): void {
  const n = re.length;
  for (let i = 1, j = 0; i < n; i++) {
    let bit = n >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i < j) {
      const a = re[i]!;
      re[i] = re[j]!;
      re[j] = a;
      const b = im[i]!;
      im[i] = im[j]!;
      im[j] = b;
    }
  }
  const cos = new Float64Array(n >> 1);
  const sin = new Float64Array(n >> 1);
  for (let k = 0; k < n >> 1; k++) {
    cos[k] = Math.cos((2 * Math.PI * k) / n);
    sin[k] = -Math.sin((2 * Math.PI * k) / n);
  }
  for (let size = 2; size <= n; size *= 2) {
    const half = size / 2;
    const step = n / size;
    for (let start = 0; start < n; start += size) {
      for (let k = 0; k < half; k++) {
        const i = start + k;
        const j = i + half;
        const c = cos[k * step]!;
        const s = sin[k * step]!;
        const a = re[j]! * c - im[j]! * s;
        const b = re[j]! * s + im[j]! * c;
        re[j] = re[i]! - a;
        im[j] = im[i]! - b;
        re[i] = re[i]! + a;
        im[i] = im[i]! + b;
      }
    }
  }
}

/** ki = (k² + i² − (k − i)²)/2 turns the transform into a convolution, done at a power of two. */
function bluestein(re: Float64Array, im: Float64Array): void {
  const n = re.length;
  let m = 1;
  while (m < 2 * n - 1) m *= 2;
  const cos = new Float64Array(n);
  const sin = new Float64Array(n);
  // i² modulo 2n, kept exact by adding odd numbers.
  for (let i = 0, square = 0; i < n; square = (square + 2 * i + 1) % (2 * n), i++) {
    cos[i] = Math.cos((Math.PI * square) / n);
    sin[i] = Math.sin((Math.PI * square) / n);
  }
  const ar = new Float64Array(m);
  const ai = new Float64Array(m);
  const br = new Float64Array(m);
  const bi = new Float64Array(m);
  for (let i = 0; i < n; i++) {
    ar[i] = re[i]! * cos[i]! + im[i]! * sin[i]!;
    ai[i] = im[i]! * cos[i]! - re[i]! * sin[i]!;
    br[i] = cos[i]!;
    bi[i] = sin[i]!;
    if (i > 0) {
      br[m - i] = cos[i]!;
      bi[m - i] = sin[i]!;
    }
  }
  powerOfTwo(ar, ai);
  powerOfTwo(br, bi);
  // The inverse transform is the forward one with real and imaginary parts exchanged.
  for (let i = 0; i < m; i++) {
    const a = ar[i]! * br[i]! - ai[i]! * bi[i]!;
    ai[i] = ar[i]! * bi[i]! + ai[i]! * br[i]!;
    ar[i] = a;
  }
  powerOfTwo(ai, ar);
  for (let i = 0; i < n; i++) {
    const a = ar[i]! / m;
    const b = ai[i]! / m;
    re[i] = a * cos[i]! + b * sin[i]!;
    im[i] = b * cos[i]! - a * sin[i]!;
  }
}
