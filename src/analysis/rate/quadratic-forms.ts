import type { NoiseModes } from "./noise-modes.ts";

/** What the likelihood of a record in its modes is made of. */
export interface QuadraticForms {
  /** ln |C|. */
  readonly logDeterminant: number;
  /** w′C⁻¹w, w the record. */
  readonly record: number;
  /** d′C⁻¹d, d a drift. */
  readonly drift: number;
  /** d′C⁻¹w. */
  readonly both: number;
}

/**
 * Quadratic forms of a record and of a drift under the covariance of its modes.
 *
 *   C = diag(S) + e·pp′
 *
 * p is what the noise of the two end edges does, which odd and even modes see apart.
 *
 * @param modes - the record in its modes
 * @param spectrum - S, variance of each mode; as many as modes, > 0
 * @param edges - e, variance that the end edges have beyond it; the same unit, >= 0
 * @returns the forms
 *
 * Source: Sherman & Morrison, Ann. Math. Stat. 21, 124 (1950). Exact case: e = 0 gives Σ w²/S.
 */
export function quadraticForms(
  modes: NoiseModes,
  spectrum: Float64Array,
  edges: number,
): QuadraticForms {
  const { count, power, edge2, edgePower, edgeDrift, drift2, driftPower, odd } = modes;
  let logDeterminant = 0;
  let record = 0;
  let drift = 0;
  let both = 0;
  let oddPp = 0;
  let oddPw = 0;
  let oddPd = 0;
  let evenPp = 0;
  let evenPw = 0;
  let evenPd = 0;
  for (let i = 0; i < count.length; i++) {
    const s = spectrum[i]!;
    const inverse = 1 / s;
    logDeterminant += count[i]! * Math.log(s);
    record += power[i]! * inverse;
    drift += drift2[i]! * inverse;
    both += driftPower[i]! * inverse;
    if (odd[i] === 1) {
      oddPp += edge2[i]! * inverse;
      oddPw += edgePower[i]! * inverse;
      oddPd += edgeDrift[i]! * inverse;
    } else {
      evenPp += edge2[i]! * inverse;
      evenPw += edgePower[i]! * inverse;
      evenPd += edgeDrift[i]! * inverse;
    }
  }
  const oddGain = edges / (1 + edges * oddPp);
  const evenGain = edges / (1 + edges * evenPp);
  return {
    logDeterminant: logDeterminant + (Math.log1p(edges * oddPp) + Math.log1p(edges * evenPp)),
    record: record - (oddGain * oddPw * oddPw + evenGain * evenPw * evenPw),
    drift: drift - (oddGain * oddPd * oddPd + evenGain * evenPd * evenPd),
    both: both - (oddGain * oddPd * oddPw + evenGain * evenPd * evenPw),
  };
}
