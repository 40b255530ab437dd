/** The five power-law noises of S_y(f) = h_α f^α (IEEE Std 1139), from α = 2 down to α = −2. */
export type NoiseType = "white_pm" | "flicker_pm" | "white_fm" | "flicker_fm" | "random_walk_fm";

/** All five types, from the least to the most divergent at low frequency. */
export const noiseTypes: readonly NoiseType[] = [
  "white_pm",
  "flicker_pm",
  "white_fm",
  "flicker_fm",
  "random_walk_fm",
];

const names: Record<NoiseType, string> = {
  white_pm: "white PM",
  flicker_pm: "flicker PM",
  white_fm: "white FM",
  flicker_fm: "flicker FM",
  random_walk_fm: "random-walk FM",
};

/**
 * Noise type whose exponent lies nearest to an estimate of α.
 *
 * @param alpha - estimate of α; dimensionless, any finite number (beyond ±2 counts as ±2)
 * @returns the type
 * @throws RangeError if alpha is not finite
 *
 * Source: NIST SP 1065, section 5.5.3 (the estimate is rounded to the nearest integer).
 */
export function noiseTypeOf(alpha: number): NoiseType {
  if (!Number.isFinite(alpha)) {
    throw new RangeError(`noiseTypeOf: alpha must be finite, got ${alpha}`);
  }
  return noiseTypes[Math.min(4, Math.max(0, Math.round(2 - alpha)))]!;
}

/**
 * Name of a noise type as it stands in text, e.g. "random-walk FM".
 *
 * @param type - one of the five types
 * @returns its name in the words of IEEE Std 1139 (a string, no unit)
 */
export function noiseName(type: NoiseType): string {
  return names[type];
}
