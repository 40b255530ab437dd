import { flickerPmEdges, type NoiseModes } from "./noise-modes.ts";
import { quadraticForms } from "./quadratic-forms.ts";

/** Levels of noise that add up in a record: white PM, white FM, flicker FM, random-walk FM, flicker PM. */
export type NoiseLevelsFound = readonly [number, number, number, number, number];

/** Logarithm of the likelihood of a record, and the drift that fits it best. */
export interface ComponentFit {
  readonly log: number;
  readonly drift: number;
  readonly driftVariance: number;
}

/**
 * Likelihood of all noises together, with a drift fitted beside them.
 *
 *   ln L = −½·[ln |C| + w′C⁻¹w],  C = diag(θ₀a + θ₁b₁ + θ₂b₂ + θ₃b₃ + θ₄c) + (2θ₀ + 1.5θ₄)pp′
 *
 * @param modes - the record in its modes
 * @param levels - θ; square of the record's unit, >= 0, not all 0
 * @returns the logarithm (less a constant), and the drift; −Infinity where the levels leave a mode without noise
 *
 * Source: own derivation; Harville, Biometrika 61, 383 (1974). Exact case: one noise alone has its greatest
 * likelihood where its level is the mean of w′C⁻¹w.
 */
export function componentLikelihood(modes: NoiseModes, levels: NoiseLevelsFound): ComponentFit {
  const { count, measurement, whiteFm, flickerFm, randomWalkFm, flickerPm } = modes;
  const [pm, white, flicker, walk, phase] = levels;
  const spectrum = new Float64Array(count.length);
  for (let i = 0; i < count.length; i++) {
    const s =
      pm * measurement[i]! +
      (whiteFm === null ? 0 : white * whiteFm[i]!) +
      flicker * flickerFm[i]! +
      walk * randomWalkFm[i]! +
      (flickerPm === null ? 0 : phase * flickerPm[i]!);
    if (!(s > 0)) return { log: Number.NEGATIVE_INFINITY, drift: 0, driftVariance: 0 };
    spectrum[i] = s;
  }
  const { logDeterminant, record, drift, both } = quadraticForms(
    modes,
    spectrum,
    2 * pm + flickerPmEdges * phase,
  );
  const rest = record - (both * both) / drift;
  // The drift is fitted, not known: its own uncertainty belongs to the likelihood of the contrasts.
  const log = -0.5 * (logDeterminant + rest + Math.log(drift));
  return { log, drift: both / drift, driftVariance: 1 / drift };
}
