import type { NoiseModes } from "./noise-modes.ts";

/** Levels of noise that add up in a record: measurement, white FM, flicker FM, random-walk FM. */
export type NoiseLevelsFound = readonly [number, number, number, number];

/** Logarithm of the likelihood of a record, and the drift that fits it best. */
export interface ComponentFit {
  readonly log: number;
  readonly drift: number;
  readonly driftVariance: number;
}

/**
 * Likelihood of all noises together, with a drift fitted beside them.
 *
 *   ln L = −½·[ln |C| + w′C⁻¹w],  C = diag(θ₀a + θ₁b₁ + θ₂b₂ + θ₃b₃) + 2θ₀pp′
 *
 * @param modes - the record in its modes
 * @param levels - θ; square of the record's unit, >= 0, not all 0
 * @returns the logarithm (less a constant), and the drift; −Infinity where the levels leave a mode without noise
 *
 * Source: own derivation; Harville, Biometrika 61, 383 (1974). Exact case: one noise alone has its greatest
 * likelihood where its level is the mean of w′C⁻¹w.
 */
export function componentLikelihood(modes: NoiseModes, levels: NoiseLevelsFound): ComponentFit {
  const { count, power, measurement, whiteFm, flickerFm, randomWalkFm } = modes;
  const { edge2, edgePower, edgeDrift, drift2, driftPower, odd } = modes;
  const [pm, white, flicker, walk] = levels;
  let logDeterminant = 0;
  let q = 0;
  let dd = 0;
  let dw = 0;
  let oddPp = 0;
  let oddPw = 0;
  let oddPd = 0;
  let evenPp = 0;
  let evenPw = 0;
  let evenPd = 0;
  for (let i = 0; i < count.length; i++) {
    const s =
      pm * measurement[i]! +
      (whiteFm === null ? 0 : white * whiteFm[i]!) +
      flicker * flickerFm[i]! +
      walk * randomWalkFm[i]!;
    if (!(s > 0)) return { log: Number.NEGATIVE_INFINITY, drift: 0, driftVariance: 0 };
    const inverse = 1 / s;
    logDeterminant += count[i]! * Math.log(s);
    q += power[i]! * inverse;
    dd += drift2[i]! * inverse;
    dw += driftPower[i]! * inverse;
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
  const oddGain = (2 * pm) / (1 + 2 * pm * oddPp);
  const evenGain = (2 * pm) / (1 + 2 * pm * evenPp);
  logDeterminant += Math.log1p(2 * pm * oddPp) + Math.log1p(2 * pm * evenPp);
  q -= oddGain * oddPw * oddPw + evenGain * evenPw * evenPw;
  dd -= oddGain * oddPd * oddPd + evenGain * evenPd * evenPd;
  dw -= oddGain * oddPd * oddPw + evenGain * evenPd * evenPw;
  q -= (dw * dw) / dd;
  // The drift is fitted, not known: its own uncertainty belongs to the likelihood of the contrasts.
  const log = -0.5 * (logDeterminant + q + Math.log(dd));
  return { log, drift: dw / dd, driftVariance: 1 / dd };
}
