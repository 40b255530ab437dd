import type { EdgeEvents } from "./edge-events.ts";
import { firstAt, phaseAt, polesAt } from "./edge-filter.ts";
import { leastSquares, type Trace } from "./least-squares.ts";
import type { LeastSquares } from "./least-squares-pass.ts";
import type { Levels } from "./levels.ts";

/** What one fault at each event would be, by generalised least squares; 0 information where none is possible. */
export interface Shifts {
  /** Size of the fault; phase. */
  readonly size: Float64Array;
  /** Inverse variance of the size times σ². */
  readonly information: Float64Array;
  /** What one unit of the fault adds to the steady rate if it is not allowed for; 1/time. */
  readonly onSteady: Float64Array;
  /** The same for the rate over the run; 1/time. */
  readonly onRun: Float64Array;
}

/** Faults of a record under one set of levels. */
export interface LookBack {
  readonly fit: LeastSquares;
  /** A step of the phase between each event and the one before. */
  readonly steps: Shifts;
  /** A stamp that is off by itself. */
  readonly stamps: Shifts;
}

function shiftsOf(size: number): Shifts {
  return {
    size: new Float64Array(size),
    information: new Float64Array(size),
    onSteady: new Float64Array(size),
    onRun: new Float64Array(size),
  };
}

/**
 * Looks back from the end of a record for what a step of the phase, or an outlying stamp, at each event would be.
 *
 *   r ← Tᵀr + H·e,  e = v/F − gᵀr,   N ← TᵀNT + H·Hᵀ·d − H·uᵀ − u·Hᵀ,  d = 1/F + gᵀNg, u = TᵀNg
 *
 * With uᵀV⁻¹y and uᵀV⁻¹u of the step in r and N, its size follows after the regressors are taken out of both.
 *
 * @param events - the record
 * @param levels - noise levels over σ²
 * @param times - flicker ladder
 * @returns fit and faults
 *
 * Source: de Jong & Penzer, J. Amer. Stat. Assoc. 93, 796 (1998); Harvey, Koopman & Penzer 1998. Equals the fit with
 * the fault as one more regressor (a test).
 */
export function lookBack(events: EdgeEvents, levels: Levels, times: Float64Array): LookBack {
  const { starts, unseen, regressors, duration } = events;
  const size = events.step.length;
  let trace: Trace | undefined;
  const fit = leastSquares(events, levels, times, (order, columns) => {
    trace = {
      transitions: [],
      gains: new Float64Array(size * order),
      variances: new Float64Array(size),
      innovations: new Float64Array(size * columns),
    };
    return trace;
  });
  const { transitions, gains, variances, innovations } = trace!;
  const { order: n } = fit.filter;
  const p = regressors.length;
  const columns = p + 1;
  const { coefficients: beta, inverse, steadyWeights, runWeights } = fit;
  const steps = shiftsOf(size);
  const stamps = shiftsOf(size);
  // One row a column: the readings, then the regressors.
  const r = Array.from({ length: columns }, () => new Float64Array(n));
  const info = new Float64Array(n * n);
  const end = new Float64Array(n);
  end[phaseAt] = 1;
  end[firstAt] = -1;
  const h = new Float64Array(n);
  const u = new Float64Array(n);
  const e = new Float64Array(columns);
  const record = (
    shifts: Shifts,
    k: number,
    own: number,
    of: (column: number) => number,
    onGain: number,
  ) => {
    let size = of(0);
    let information = own;
    let steady = 0;
    let run = onGain / duration;
    for (let i = 0; i < p; i++) {
      const x = of(i + 1);
      size -= x * beta[i]!;
      let solved = 0;
      for (let j = 0; j < p; j++) solved += inverse[i * p + j]! * of(j + 1);
      information -= x * solved;
      steady += steadyWeights[i]! * solved;
      run += runWeights[i]! * solved;
    }
    if (!(information > 1e-9 * own)) return;
    shifts.size[k] = size / information;
    shifts.information[k] = information;
    shifts.onSteady[k] = steady;
    shifts.onRun[k] = run;
  };
  for (let k = size - 1; k > 0; k--) {
    const { poles, count } = transitions[k]!;
    if (starts[k] === 1) {
      for (const row of r) row[phaseAt] = 0;
      for (let i = 0; i < n; i++) {
        info[i] = 0;
        info[i * n] = 0;
      }
      end[phaseAt] = -end[firstAt]!;
    }
    const seen = starts[k] === 0 && unseen[k] === 0;
    const variance = variances[k]!;
    let own = 0;
    let ends = 0;
    if (seen) {
      const g = k * n;
      own = 1 / variance;
      for (let i = 0; i < n; i++) {
        let sum = 0;
        for (let j = 0; j < n; j++) sum += info[i * n + j]! * gains[g + j]!;
        u[i] = sum;
        own += gains[g + i]! * sum;
        ends += gains[g + i]! * end[i]!;
      }
      for (let c = 0; c < columns; c++) {
        let sum = innovations[k * columns + c]! / variance;
        for (let i = 0; i < n; i++) sum -= gains[g + i]! * r[c]![i]!;
        e[c] = sum;
      }
      if (count === 1) record(stamps, k, own, (c) => e[c]!, ends);
    }
    // Back over the transition: Tᵀ of each row, Tᵀ·N·T.
    back(info, n, poles);
    for (const row of r) backRow(row, poles);
    backRow(end, poles);
    if (seen) {
      backRow(u, poles);
      h[phaseAt] = 1;
      for (let a = 0; a < poles.length; a++) h[polesAt + a] = poles[a]!.mean;
      for (let i = 0; i < n; i++) {
        for (let j = 0; j < n; j++) {
          const at = i * n + j;
          info[at] = info[at]! + own * h[i]! * h[j]! - h[i]! * u[j]! - u[i]! * h[j]!;
        }
      }
      for (let i = 0; i < n; i++) {
        for (let c = 0; c < columns; c++) r[c]![i] = r[c]![i]! + h[i]! * e[c]!;
        end[i] = end[i]! - h[i]! * ends;
      }
      record(steps, k, info[0]!, (c) => r[c]![phaseAt]!, 1 - end[phaseAt]!);
    }
  }
  return { fit, steps, stamps };
}

type Poles = readonly { readonly decay: number; readonly gain: number }[];

/** row ← Tᵀ·row. */
function backRow(row: Float64Array, poles: Poles): void {
  for (let a = 0; a < poles.length; a++) {
    const { decay, gain } = poles[a]!;
    row[polesAt + a] = decay * row[polesAt + a]! + gain * row[phaseAt]!;
  }
}

/** N ← Tᵀ·N·T. */
function back(info: Float64Array, n: number, poles: Poles): void {
  for (let i = 0; i < n; i++) {
    const o = i * n;
    for (let a = 0; a < poles.length; a++) {
      const { decay, gain } = poles[a]!;
      info[o + polesAt + a] = decay * info[o + polesAt + a]! + gain * info[o]!;
    }
  }
  for (let a = 0; a < poles.length; a++) {
    const { decay, gain } = poles[a]!;
    const o = (polesAt + a) * n;
    for (let j = 0; j < n; j++) info[o + j] = decay * info[o + j]! + gain * info[j]!;
  }
}
