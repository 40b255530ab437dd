/** Factors of transforms up to this length are kept; those of longer ones are made anew. */
const longestKept = 1 << 17;

/** e^{−jπk/h} for k = 0 … h − 1 from place h on, for h = 1, 2, 4 …; a stage's do not depend on the length. */
interface Factors {
  readonly cos: Float64Array;
  readonly sin: Float64Array;
}

let kept: Factors = { cos: new Float64Array(1), sin: new Float64Array(1) };

/**
 * Discrete Fourier transform in place, of a length that is a power of two.
 *
 * @param re - real parts, overwritten; n >= 1 samples, n a power of two
 * @param im - imaginary parts, overwritten; n samples
 *
 * Source: Cooley & Tukey, Math. Comp. 19, 297 (1965). Exact case: an impulse at 0 gives 1 everywhere.
 */
export function radixTransform(re: Float64Array, im: Float64Array): void {
  reverseBits(re, im);
  transformReversed(re, im);
}

/** The same of samples that stand at `reversedPlaces` of theirs. */
export function transformReversed(re: Float64Array, im: Float64Array): void {
  const n = re.length;
  const factors = factorsFor(n);
  let half = 1;
  if (Math.clz32(n) % 2 === 0) {
    // An odd number of stages: one goes alone, the others in pairs.
    oneStage(re, im);
    half = 2;
  }
  for (; half < n; half *= 4) twoStages(re, im, factors, half);
}

function factorsFor(n: number): Factors {
  const known = kept.cos.length;
  if (known >= n) return kept;
  const cos = new Float64Array(n);
  const sin = new Float64Array(n);
  cos.set(kept.cos);
  sin.set(kept.sin);
  for (let h = known; h < n; h *= 2) {
    for (let k = 0; k < h; k++) {
      cos[h + k] = Math.cos((Math.PI * k) / h);
      sin[h + k] = -Math.sin((Math.PI * k) / h);
    }
  }
  const factors = { cos, sin };
  if (n <= longestKept) kept = factors;
  return factors;
}

/** Where the samples of a transform belong before its stages: their indices with the bits reversed. */
export function reversedPlaces(n: number): Int32Array {
  const places = new Int32Array(n);
  for (let size = 1; size < n; size *= 2) {
    for (let i = 0; i < size; i++) places[size + i] = places[i]! + n / (2 * size);
  }
  return places;
}

function reverseBits(re: Float64Array, im: Float64Array): void {
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
}

/** The first stage: sums and differences of neighbours. */
function oneStage(re: Float64Array, im: Float64Array): void {
  for (let i = 0; i < re.length; i += 2) {
    const a = re[i + 1]!;
    const b = im[i + 1]!;
    re[i + 1] = re[i]! - a;
    im[i + 1] = im[i]! - b;
    re[i] = re[i]! + a;
    im[i] = im[i]! + b;
  }
}

/** The stages of `half` and of twice that in one pass over memory, which is what costs. */
function twoStages(re: Float64Array, im: Float64Array, { cos, sin }: Factors, half: number): void {
  const n = re.length;
  for (let start = 0; start < n; start += 4 * half) {
    for (let k = 0; k < half; k++) {
      const i0 = start + k;
      const i1 = i0 + half;
      const i2 = i1 + half;
      const i3 = i2 + half;
      const c = cos[half + k]!;
      const s = sin[half + k]!;
      const r1 = re[i1]! * c - im[i1]! * s;
      const m1 = re[i1]! * s + im[i1]! * c;
      const r3 = re[i3]! * c - im[i3]! * s;
      const m3 = re[i3]! * s + im[i3]! * c;
      const r0 = re[i0]!;
      const m0 = im[i0]!;
      const r2 = re[i2]!;
      const m2 = im[i2]!;
      const sumR = r0 + r1;
      const sumM = m0 + m1;
      const differenceR = r0 - r1;
      const differenceM = m0 - m1;
      const c0 = cos[2 * half + k]!;
      const s0 = sin[2 * half + k]!;
      const a = (r2 + r3) * c0 - (m2 + m3) * s0;
      const b = (r2 + r3) * s0 + (m2 + m3) * c0;
      const c1 = cos[3 * half + k]!;
      const s1 = sin[3 * half + k]!;
      const d = (r2 - r3) * c1 - (m2 - m3) * s1;
      const e = (r2 - r3) * s1 + (m2 - m3) * c1;
      re[i0] = sumR + a;
      im[i0] = sumM + b;
      re[i1] = differenceR + d;
      im[i1] = differenceM + e;
      re[i2] = sumR - a;
      im[i2] = sumM - b;
      re[i3] = differenceR - d;
      im[i3] = differenceM - e;
    }
  }
}
