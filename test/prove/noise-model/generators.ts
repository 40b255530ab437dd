/**
 * Records of power-law noise made without any state space: white noise by the polar method, flicker FM by fractional
 * differences (Kasdin & Walter, Proc. IEEE Freq. Control Symp. 1992: h_k = h_{k−1}·(k − ½)/k, convolved by FFT).
 * Nothing here knows of src/.
 */

/** Uniform and Gaussian deviates of a seed. */
export class Deviates {
  private state: number;
  private spare = Number.NaN;
  constructor(seed: number) {
    this.state = (seed * 2654435761) >>> 0 || 1;
  }
  uniform(): number {
    this.state = (this.state + 0x6d2b79f5) | 0;
    let t = Math.imul(this.state ^ (this.state >>> 15), 1 | this.state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }
  normal(): number {
    if (!Number.isNaN(this.spare)) {
      const x = this.spare;
      this.spare = Number.NaN;
      return x;
    }
    for (;;) {
      const a = 2 * this.uniform() - 1;
      const b = 2 * this.uniform() - 1;
      const r = a * a + b * b;
      if (r >= 1 || r === 0) continue;
      const f = Math.sqrt((-2 * Math.log(r)) / r);
      this.spare = b * f;
      return a * f;
    }
  }
}

/** In-place radix-2 transform. */
export function transform(re: Float64Array, im: Float64Array, sign: number): void {
  const n = re.length;
  for (let i = 1, j = 0; i < n; i++) {
    let bit = n >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i < j) {
      [re[i], re[j]] = [re[j]!, re[i]!];
      [im[i], im[j]] = [im[j]!, im[i]!];
    }
  }
  for (let size = 2; size <= n; size <<= 1) {
    const half = size >> 1;
    for (let k = 0; k < half; k++) {
      const c = Math.cos((2 * Math.PI * k) / size);
      const s = sign * Math.sin((2 * Math.PI * k) / size);
      for (let p = k; p < n; p += size) {
        const q = p + half;
        const xr = re[q]! * c - im[q]! * s;
        const xi = re[q]! * s + im[q]! * c;
        re[q] = re[p]! - xr;
        im[q] = im[p]! - xi;
        re[p] = re[p]! + xr;
        im[p] = im[p]! + xi;
      }
    }
  }
}

/**
 * Flicker FM of Allan floor 1 as the mean rate of each of K steps, of a source that has run for 1e5·K steps: fractional
 * differences over sixteen runs, and a constant for all that is slower.
 */
export function flickerMaker(size: number): (deviates: Deviates) => Float64Array {
  const memory = 16 * size;
  let n = 1;
  while (n < 2 * (memory + size)) n <<= 1;
  const hr = new Float64Array(n);
  const hi = new Float64Array(n);
  let squares = 0;
  for (let k = 0, h = 1; k < memory; k++) {
    hr[k] = h;
    squares += h * h;
    h *= (k + 0.5) / (k + 1);
  }
  transform(hr, hi, -1);
  // S_y = Q/(2πf) has the floor 2·ln 2·Q/(2π); 1 for Q = π/ln 2 two-sided, π/(2·ln 2) a step.
  const level = Math.sqrt(Math.PI / (2 * Math.LN2));
  const lowest = 2 / Math.PI / Math.exp(Math.PI * squares);
  const slower = Math.sqrt(Math.max(0, Math.log(lowest * 1e5 * size)) / (2 * Math.LN2));
  return (deviates) => {
    const re = new Float64Array(n);
    const im = new Float64Array(n);
    for (let i = 0; i < memory + size; i++) re[i] = deviates.normal();
    transform(re, im, -1);
    for (let i = 0; i < n; i++) {
      const a = re[i]! * hr[i]! - im[i]! * hi[i]!;
      im[i] = re[i]! * hi[i]! + im[i]! * hr[i]!;
      re[i] = a;
    }
    transform(re, im, 1);
    const constant = slower * deviates.normal();
    return Float64Array.from({ length: size }, (_, i) => (level * re[memory + i]!) / n + constant);
  };
}

/** Variances in units of a step: of an edge, of the phase a step gains, of the floor, of the rate a step gains. */
export interface Recipe {
  readonly pm: number;
  readonly wfm: number;
  readonly ffm: number;
  readonly rw: number;
}

/** One record: true phase and stamps at the ends of K steps of length 1. */
export function makeRecord(
  size: number,
  recipe: Recipe,
  deviates: Deviates,
  flicker?: (d: Deviates) => Float64Array,
): { phase: Float64Array; stamps: Float64Array } {
  const phase = new Float64Array(size + 1);
  const slow = recipe.ffm > 0 ? flicker!(deviates) : undefined;
  let walk = 0;
  for (let k = 0; k < size; k++) {
    let step = Math.sqrt(recipe.wfm) * deviates.normal();
    if (slow !== undefined) step += Math.sqrt(recipe.ffm) * slow[k]!;
    for (let j = 0; recipe.rw > 0 && j < 4; j++) {
      walk += Math.sqrt(recipe.rw / 4) * deviates.normal();
      step += walk / 4;
    }
    phase[k + 1] = phase[k]! + step;
  }
  const stamps = phase.map((x) => x + Math.sqrt(recipe.pm) * deviates.normal());
  return { phase, stamps };
}

/** The noises that a bench meets, by what they are called in the tables. */
export const recipes: Record<string, (size: number) => Recipe> = {
  "white PM": () => ({ pm: 1, wfm: 0, ffm: 0, rw: 0 }),
  "white FM": () => ({ pm: 0, wfm: 1, ffm: 0, rw: 0 }),
  "PM and FM": (K) => ({ pm: 1, wfm: 8 / K, ffm: 0, rw: 0 }),
  "FM and floor": (K) => ({ pm: 0, wfm: 1, ffm: 10 / K, rw: 0 }),
  "PM and floor": (K) => ({ pm: 1, wfm: 0, ffm: 12 / K ** 3, rw: 0 }),
  "PM and floor of 3.2": (K) => ({ pm: 1, wfm: 0, ffm: 120 / K ** 3, rw: 0 }),
  "PM and random walk": (K) => ({ pm: 1, wfm: 0, ffm: 0, rw: 12000 / K ** 4 }),
};
