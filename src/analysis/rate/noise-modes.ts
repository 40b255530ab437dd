import { cosineTransform } from "./cosine-transform.ts";
import { sineTransform } from "./sine-transform.ts";

/** One mode of a record, or a band of neighbouring modes of the same parity, as sums over its modes. */
export interface NoiseModes {
  /** Number of modes in each entry; >= 1. */
  readonly count: Float64Array;
  /** Σ w², the power found; square of the record's unit. */
  readonly power: Float64Array;
  /** Expected power of one mode for each unit level of noise; dimensionless. */
  readonly measurement: Float64Array;
  /** Flicker PM; null with dead time, where it cannot be told from white noise. */
  readonly flickerPm: Float64Array | null;
  readonly whiteFm: Float64Array | null;
  readonly flickerFm: Float64Array;
  readonly randomWalkFm: Float64Array;
  /** Weights of the first and of the last edge in an entry, Σ p², Σ p·w and Σ p·q; dimensionless, zero where there are none. */
  readonly edge2: Float64Array;
  readonly edgePower: Float64Array;
  readonly edgeDrift: Float64Array;
  /** Response q to a unit drift, or to another cause, Σ q² and Σ q·w. */
  readonly drift2: Float64Array;
  readonly driftPower: Float64Array;
  /** 1 for odd modes, 0 for even ones. */
  readonly odd: Uint8Array;
  /** Modes in all: degrees of freedom left after offset and rate. */
  readonly degreesOfFreedom: number;
  /** Intervals of the record. */
  readonly intervals: number;
}

/** What the end edges of flicker PM add to its modes, fitted to their exact covariance; in units of its level. */
export const flickerPmEdges = 1.5;
/** Modes below this are kept one by one; above, in bands of a few per cent. */
const single = 256;
const bandRatio = 1.04;

/**
 * Modes of a back-to-back record: the sine transform of the second differences of the time error, which
 * know neither offset nor rate. White FM and random-walk FM are diagonal in it, white PM but for its two
 * end edges, which are kept apart, so that the likelihood of a noise model is exact and costs one pass.
 *
 *   second differences of white PM: 16 sin⁴(θ/2)·σ², plus 2σ²pp′ in odd and in even modes, p = √(2/K)·sin θ
 *   flicker PM (2 sin(θ/2))³, its end edges likewise, nearly: its modes are independent within a few per cent but for
 *   the lowest, and the edges count with 1.5 of its level
 *   white FM 4 sin²(θ/2)·g · random-walk FM (2 + cos θ)/3·r · flicker FM 4 sin²(θ/2)·h·Φ(θ), θ = πk/K
 *
 * @param x - time error at evenly spaced edges, in units of the spacing; K + 1 >= 4 samples
 * @param column - what a cause of unit size does to x, for the fit beside the noise; K + 1 samples, or null: a
 *   unit drift of the rate in each interval
 * @returns the modes; levels are σ² of one edge, g = σ_y²(τ₀) of white FM, h₋₁, and the variance r which
 *   random-walk FM adds to the rate in one interval
 * @throws RangeError if x holds fewer than four samples
 *
 * Source: own derivation; eigenvectors of the second difference, see Strang, SIAM Review 41, 135 (1999).
 * Exact case: the covariance of second differences of white PM is (1, −4, 6, −4, 1)·σ².
 */
export function boundaryModes(x: Float64Array, column: Float64Array | null = null): NoiseModes {
  const intervals = x.length - 1;
  if (intervals < 3) {
    throw new RangeError(`boundaryModes: x must hold at least four samples, got ${x.length}`);
  }
  const w = sineTransform(secondDifferences(x));
  const q = column === null ? null : sineTransform(secondDifferences(column));
  const norm = Math.sqrt(2 / intervals);
  return collect(w, intervals, {
    edge: (k) => norm * Math.sin((Math.PI * k) / intervals),
    drift: (k) => {
      if (q !== null) return q[k - 1]!;
      return k % 2 === 1 ? norm / Math.tan((Math.PI * k) / (2 * intervals)) : 0;
    },
    measurement: (u) => u * u,
    flickerPm: (u) => u * Math.sqrt(u),
    whiteFm: (u) => u,
    flickerFm: (u, f) => u * sampledFlicker(f, 1),
    randomWalkFm: (u) => 1 - u / 6,
  });
}

/**
 * Modes of readings with dead time: the cosine transform of the single rates, mean left out. Counter noise
 * and white FM are both white in them and cannot be told apart.
 *
 * @param y - single rates, evenly spaced; K >= 4 of them, dimensionless
 * @param duty - share of the spacing in which the gate is open; 0 < duty <= 1
 * @param column - what a cause of unit size does to y; K values, or null: a unit drift from reading to reading
 * @returns the modes; levels are the white variance of one rate, h₋₁, and the variance which random-walk
 *   FM adds to the rate from reading to reading
 * @throws RangeError if y holds fewer than four samples or duty is outside its range
 *
 * Source: own derivation. Exact case: white noise has the same power in every mode.
 */
export function readingModes(
  y: Float64Array,
  duty: number,
  column: Float64Array | null = null,
): NoiseModes {
  const intervals = y.length;
  if (intervals < 4) {
    throw new RangeError(`readingModes: y must hold at least four samples, got ${intervals}`);
  }
  if (!(duty > 0 && duty <= 1)) {
    throw new RangeError(`readingModes: duty must lie above 0 and not above 1, got ${duty}`);
  }
  const drift = cosineTransform(column ?? Float64Array.from({ length: intervals }, (_, i) => i));
  return collect(cosineTransform(y).subarray(1), intervals, {
    edge: () => 0,
    drift: (k) => drift[k]!,
    measurement: () => 1,
    flickerPm: null,
    whiteFm: null,
    flickerFm: (_, f) => sampledFlicker(f, duty),
    randomWalkFm: (_, f) => sampledRandomWalk(f, duty),
  });
}

function secondDifferences(x: Float64Array): Float64Array {
  const z = new Float64Array(x.length - 2);
  for (let i = 0; i < z.length; i++) z[i] = x[i + 2]! - x[i + 1]! - (x[i + 1]! - x[i]!);
  return z;
}

interface Shapes {
  edge(k: number): number;
  drift(k: number): number;
  measurement(u: number): number;
  flickerPm: ((u: number) => number) | null;
  whiteFm: ((u: number) => number) | null;
  flickerFm(u: number, f: number): number;
  randomWalkFm(u: number, f: number): number;
}

function collect(w: Float64Array, intervals: number, shapes: Shapes): NoiseModes {
  const bands: { first: number; last: number }[] = [];
  for (let parity = 1; parity <= 2; parity++) {
    for (let k = parity; k <= w.length; ) {
      const wanted = k <= single ? k : Math.max(k, Math.floor(k * bandRatio));
      const last = Math.min(wanted - ((wanted - k) % 2), w.length - ((w.length - k) % 2));
      bands.push({ first: k, last });
      k = last + 2;
    }
  }
  const length = bands.length;
  const modes = {
    count: new Float64Array(length),
    power: new Float64Array(length),
    measurement: new Float64Array(length),
    flickerPm: shapes.flickerPm === null ? null : new Float64Array(length),
    whiteFm: shapes.whiteFm === null ? null : new Float64Array(length),
    flickerFm: new Float64Array(length),
    randomWalkFm: new Float64Array(length),
    edge2: new Float64Array(length),
    edgePower: new Float64Array(length),
    edgeDrift: new Float64Array(length),
    drift2: new Float64Array(length),
    driftPower: new Float64Array(length),
    odd: new Uint8Array(length),
    degreesOfFreedom: w.length,
    intervals,
  };
  for (let b = 0; b < length; b++) {
    const { first, last } = bands[b]!;
    for (let k = first; k <= last; k += 2) {
      const value = w[k - 1]!;
      const p = shapes.edge(k);
      const q = shapes.drift(k);
      modes.count[b]! += 1;
      modes.power[b]! += value * value;
      modes.edge2[b]! += p * p;
      modes.edgePower[b]! += p * value;
      modes.edgeDrift[b]! += p * q;
      modes.drift2[b]! += q * q;
      modes.driftPower[b]! += q * value;
    }
    const f = (first + last) / (4 * intervals);
    const s = Math.sin(Math.PI * f);
    const u = 4 * s * s;
    modes.measurement[b] = shapes.measurement(u);
    if (modes.flickerPm !== null) modes.flickerPm[b] = shapes.flickerPm!(u);
    if (modes.whiteFm !== null) modes.whiteFm[b] = shapes.whiteFm!(u);
    modes.flickerFm[b] = shapes.flickerFm(u, f);
    modes.randomWalkFm[b] = shapes.randomWalkFm(u, f);
    modes.odd[b] = first % 2;
  }
  return modes;
}

/** Σ_n sinc²(d(f + n)) / (2|f + n|): flicker FM of h₋₁ = 1 averaged over a share d of the interval, sampled. */
function sampledFlicker(f: number, duty: number): number {
  let sum = 0;
  for (let n = -12; n <= 12; n++) sum += averaging(f + n, duty) / (2 * Math.abs(f + n));
  return sum;
}

/** Σ_n sinc²(d(f + n)) / (2π(f + n))²: random-walk FM of unit variance an interval, likewise. */
function sampledRandomWalk(f: number, duty: number): number {
  let sum = 0;
  for (let n = -12; n <= 12; n++) {
    const omega = 2 * Math.PI * (f + n);
    sum += averaging(f + n, duty) / (omega * omega);
  }
  return sum;
}

function averaging(f: number, duty: number): number {
  const angle = Math.PI * f * duty;
  const sinc = angle === 0 ? 1 : Math.sin(angle) / angle;
  return sinc * sinc;
}
