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
 * Name of a noise type as it stands in text, e.g. "random-walk FM".
 *
 * @param type - one of the five types
 * @returns its name in the words of IEEE Std 1139 (a string, no unit)
 */
export function noiseName(type: NoiseType): string {
  return names[type];
}
