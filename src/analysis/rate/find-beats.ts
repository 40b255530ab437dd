import { fourierTransform } from "./fourier-transform.ts";

/** A sinusoid in the time errors of a record. */
export interface Beat {
  /** Cycles an interval; 0 < f <= 1/2. */
  readonly frequency: number;
  /** Mean square, a²/2; square of the record's unit. */
  readonly power: number;
}

/** Beats found one after another, with what each leaves. */
export interface BeatFit {
  readonly beats: readonly Beat[];
  /** Sum of squares that remains over the one about the straight line; dimensionless, 0 to 1. */
  readonly remainder: number;
}

/** Longest record that is searched point by point; a longer one is averaged in blocks. */
const longest = 8192;
const mostBeats = 4;
/** Slower than this many cycles a record, a beat is no cycle but a curve. */
const fewestCycles = 0.8;

/**
 * Sinusoids that stand out of a time-error record, strongest first: the peak of the periodogram, refined by
 * least squares beside a straight line, taken out, and again.
 *
 * @param x - time error at evenly spaced edges; N >= 8 samples
 * @returns fits with one, two, … beats, for as long as each lowers the sum of squares by more than chance
 *   (ln N times five halves in the logarithm of the likelihood: amplitude, phase and frequency); often none
 *
 * Source: Rife & Boorstyn, IEEE Trans. Inf. Theory 20, 591 (1974); Schwarz, Ann. Statist. 6, 461 (1978) with the
 * frequency, known to N^(−3/2), counted threefold. Exact case: a pure sinusoid leaves nothing.
 */
export function findBeats(x: Float64Array): BeatFit[] {
  if (x.length < 8)
    throw new RangeError(`findBeats: x must hold at least 8 samples, got ${x.length}`);
  const block = Math.ceil(x.length / longest);
  const length = Math.floor(x.length / block);
  const r = new Float64Array(length);
  for (let i = 0; i < length * block; i++) r[Math.floor(i / block)]! += x[i]! / block;
  takeOutLine(r);
  let removed = 0;
  // Averaging hides the noise within the blocks: take the whole from the record itself.
  const whole = block === 1 ? squares(r) : squaresAboutLine(x) / block;
  const beats: Beat[] = [];
  const fits: BeatFit[] = [];
  while (beats.length < mostBeats && whole - removed > 1e-12 * whole) {
    const found = strongest(r);
    if (found === null) break;
    const before = squares(r);
    takeOut(r, found.frequency);
    takeOutLine(r);
    const gain = before - squares(r);
    const left = whole - removed - gain;
    const n = x.length;
    const likelihoodGain = (n / 2) * Math.log((whole - removed) / Math.max(left, 1e-300));
    if (!(likelihoodGain > 2.5 * Math.log(n))) break;
    removed += gain;
    beats.push({ frequency: found.frequency / block, power: gain / length });
    fits.push({ beats: [...beats], remainder: Math.max(left / whole, 1e-12) });
  }
  return fits;
}

function squares(r: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < r.length; i++) sum += r[i]! * r[i]!;
  return sum;
}

function squaresAboutLine(x: Float64Array): number {
  const r = x.slice();
  takeOutLine(r);
  return squares(r);
}

function takeOutLine(r: Float64Array): void {
  const n = r.length;
  const middle = (n - 1) / 2;
  let mean = 0;
  for (let i = 0; i < n; i++) mean += r[i]! / n;
  let slope = 0;
  for (let i = 0; i < n; i++) slope += (i - middle) * (r[i]! - mean);
  slope /= (n * (n * n - 1)) / 12;
  for (let i = 0; i < n; i++) r[i]! -= mean + slope * (i - middle);
}

/** Frequency of the highest peak, refined between its neighbours by golden section. */
function strongest(r: Float64Array): { frequency: number } | null {
  let size = 1;
  while (size < 2 * r.length) size *= 2;
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  re.set(r);
  fourierTransform(re, im);
  const from = Math.ceil((fewestCycles * size) / r.length);
  let peak = -1;
  let highest = 0;
  for (let k = from; k <= size / 2; k++) {
    const power = re[k]! * re[k]! + im[k]! * im[k]!;
    if (power > highest) {
      highest = power;
      peak = k;
    }
  }
  if (peak < 0) return null;
  const golden = (Math.sqrt(5) - 1) / 2;
  let low = Math.max(from - 1, peak - 1) / size;
  let high = Math.min(size / 2, peak + 1) / size;
  for (let i = 0; i < 12; i++) {
    const width = golden * (high - low);
    if (explained(r, high - width) > explained(r, low + width)) high = low + width;
    else low = high - width;
  }
  return { frequency: (low + high) / 2 };
}

/** Normal equations of cos and sin at a frequency, counted from the middle so that they do not mix. */
function sinusoid(r: Float64Array, frequency: number) {
  const middle = (r.length - 1) / 2;
  // One rotation a step: the angle grows by rounding only, far below what a record resolves.
  const stepCos = Math.cos(2 * Math.PI * frequency);
  const stepSin = Math.sin(2 * Math.PI * frequency);
  let c = Math.cos(2 * Math.PI * frequency * -middle);
  let s = Math.sin(2 * Math.PI * frequency * -middle);
  let cc = 0;
  let ss = 0;
  let cr = 0;
  let sr = 0;
  for (let i = 0; i < r.length; i++) {
    cc += c * c;
    ss += s * s;
    cr += c * r[i]!;
    sr += s * r[i]!;
    const next = c * stepCos - s * stepSin;
    s = s * stepCos + c * stepSin;
    c = next;
  }
  return { a: cc > 1e-9 ? cr / cc : 0, b: ss > 1e-9 ? sr / ss : 0, cr, sr };
}

function explained(r: Float64Array, frequency: number): number {
  const { a, b, cr, sr } = sinusoid(r, frequency);
  return a * cr + b * sr;
}

function takeOut(r: Float64Array, frequency: number): void {
  const { a, b } = sinusoid(r, frequency);
  const middle = (r.length - 1) / 2;
  for (let i = 0; i < r.length; i++) {
    const angle = 2 * Math.PI * frequency * (i - middle);
    r[i]! -= a * Math.cos(angle) + b * Math.sin(angle);
  }
}
