import { bias2, bias3 } from "./bias-functions.ts";
import { type NoiseType, noiseName } from "./noise-type.ts";

/** A corrected value, or the reason why there is none. */
export type Corrected = { readonly value: number } | { readonly refused: string };

/** Exponent μ of σ_y²(τ) ∝ τ^μ without dead time; flicker PM has none of its own (a logarithm of f_h·τ). */
const exponents: Partial<Record<NoiseType, number>> = {
  white_pm: -2,
  white_fm: -1,
  flicker_fm: 0,
  random_walk_fm: 1,
};

/** Corrections that differ by less than this part of the deviation count as one. */
const tolerance = 0.05;

/**
 * Allan deviation without dead time from one measured with dead time.
 *
 *   σ_y(Mτ) = σ(2, M, T, τ) / √[B₂(r, μ)·B₃(2, M, r, μ)],  r = T/τ
 *
 * @param deviation - square root of the two-sample variance of means of M readings; any unit, >= 0 or NaN
 * @param types - the noise types that may be present; several where the record leaves the type open
 * @param deadTimeRatio - r, spacing of the starts of readings over their length; >= 1 (1 = back to back)
 * @param m - M, readings in each mean, each with its dead time; integer >= 1
 * @returns the deviation at averaging time Mτ, in the unit given (with several types the geometric middle of their
 *   corrections), or a refusal: no type, flicker PM, or types whose corrections differ by more than 5 %
 * @throws RangeError if deviation, deadTimeRatio or m is outside its range
 *
 * Source: NBS TN 375; NIST TN 1318. Exact: unchanged back to back, and under white FM whatever the dead time.
 */
export function removeDeadTimeBias(
  deviation: number,
  types: readonly NoiseType[],
  deadTimeRatio: number,
  m: number,
): Corrected {
  if (deviation < 0) {
    throw new RangeError(`removeDeadTimeBias: deviation must be >= 0, got ${deviation}`);
  }
  if (!(deadTimeRatio >= 1 && deadTimeRatio < Number.POSITIVE_INFINITY)) {
    throw new RangeError(
      `removeDeadTimeBias: deadTimeRatio must be >= 1 and finite, got ${deadTimeRatio}`,
    );
  }
  if (!Number.isInteger(m) || m < 1) {
    throw new RangeError(`removeDeadTimeBias: m must be an integer >= 1, got ${m}`);
  }
  if (deadTimeRatio === 1) return { value: deviation };
  if (types.length === 0) return { refused: "the noise type is not known" };
  let least = Number.POSITIVE_INFINITY;
  let greatest = 0;
  for (const type of types) {
    const mu = exponents[type];
    if (mu === undefined) {
      return { refused: `under ${noiseName(type)} the correction depends on the noise bandwidth` };
    }
    const correction = Math.sqrt(bias2(deadTimeRatio, mu) * bias3(m, deadTimeRatio, mu));
    least = Math.min(least, correction);
    greatest = Math.max(greatest, correction);
  }
  if (greatest > least * (1 + tolerance)) {
    return {
      refused: `the noise may be ${types.map(noiseName).join(" or ")}, whose corrections differ by a factor of ${(greatest / least).toPrecision(3)}`,
    };
  }
  return { value: deviation / Math.sqrt(least * greatest) };
}
