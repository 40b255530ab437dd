import { z } from "zod";
import type { NoiseLevels } from "../noise/index.ts";
import {
  flickerFmLevel,
  flickerPmLevel,
  randomWalkFmLevel,
  whiteFmLevel,
  whitePmRms,
} from "../noise/index.ts";
import { nonNegative, positive } from "./quantity.ts";

/** The key beside `h` that states the same noise as each of the levels in `h`. */
export const noiseKeyOfLevel = {
  h2: "white_pm_rms_s",
  h1: "flicker_pm_adev_1s",
  h0: "white_fm_adev_1s",
  h_minus_1: "flicker_fm_adev",
  h_minus_2: "random_walk_fm_adev_1s",
} as const;

const levelsSchema = z
  .strictObject({
    h2: nonNegative("White PM level h2; s³ (S_y = h2·f²)").optional(),
    h1: nonNegative("Flicker PM level h1; s² (S_y = h1·f)").optional(),
    h0: nonNegative("White FM level h0; s, that is 1/Hz (S_y = h0)").optional(),
    h_minus_1: nonNegative("Flicker FM level h-1; dimensionless (S_y = h-1/f)").optional(),
    h_minus_2: nonNegative("Random-walk FM level h-2; Hz (S_y = h-2/f²)").optional(),
  })
  .meta({ description: "Power-law levels of S_y(f), one-sided (IEEE Std 1139)" });

/** The power-law noise of one oscillator, each kind by one key of the trade or by its level h. */
export const noiseSchema = z
  .strictObject({
    white_pm_rms_s: nonNegative("White PM: rms time error of a single edge; s").optional(),
    flicker_pm_adev_1s: nonNegative("Flicker PM: Allan deviation at 1 s; dimensionless").optional(),
    white_fm_adev_1s: nonNegative("White FM: Allan deviation at 1 s; dimensionless").optional(),
    flicker_fm_adev: nonNegative(
      "Flicker FM: the floor of the Allan deviation; dimensionless",
    ).optional(),
    random_walk_fm_adev_1s: nonNegative(
      "Random-walk FM: Allan deviation at 1 s; dimensionless",
    ).optional(),
    h: levelsSchema.optional(),
    bandwidth_hz: positive(
      "Upper end of the noise band; Hz. Default: half the edge rate of the stage (synthesizer: half of comparison_hz; own time base of a counter: 5e6)",
    ).optional(),
    flicker_longest_s: positive("Longest relaxation time of flicker noise; s").default(1e8),
  })
  .superRefine((noise, context) => {
    for (const [level, key] of Object.entries(noiseKeyOfLevel)) {
      const value = noise.h?.[level as keyof typeof noiseKeyOfLevel];
      if (value !== undefined && noise[key] !== undefined) {
        context.addIssue({
          code: "custom",
          path: ["h", level],
          message: `states the same noise as ${key}`,
          params: { hint: "keep one of the two" },
        });
      }
    }
  })
  .meta({ description: "Power-law noise; every key may be left out" });

/** A noise section as written, type-checked. */
export type NoiseDocument = z.output<typeof noiseSchema>;

/**
 * The end of the band below which an Allan deviation at 1 s says nothing of flicker PM; Hz.
 *
 * The formula holds for f_h·τ >> 1 and is 7 % off in variance at f_h·τ = 0.5, worse below
 * (IEEE Std 1139-2008, Annex B, compared with quadrature of S_y).
 */
export const leastFlickerPmBandwidth = 0.5;

/**
 * The noise levels that a noise section asks for.
 *
 * @param noise - the section; at most one key for each kind of noise
 * @param edgeRateHz - edge rate of the stage, inside a loop the rate at which it compares: the band ends at half of it
 * unless the section says otherwise; Hz, > 0
 * @returns levels h_α, white PM as rms time error; what the section does not name is 0
 * @throws RangeError where flicker PM is given by Allan deviation and the band ends below 0.113 Hz
 *
 * Source: IEEE Std 1139-2008, Annex B. Exact case: white_fm_adev_1s 1 gives h0 = 2.
 */
export function resolveNoise(noise: NoiseDocument, edgeRateHz: number): NoiseLevels {
  const bandwidthHz = noise.bandwidth_hz ?? edgeRateHz / 2;
  const flickerPm = noise.flicker_pm_adev_1s ?? 0;
  const { h2 = 0, h1, h0, h_minus_1, h_minus_2 } = noise.h ?? {};
  return {
    whitePmRms: noise.white_pm_rms_s ?? whitePmRms(h2, bandwidthHz),
    h1: h1 ?? (flickerPm === 0 ? 0 : flickerPmLevel(flickerPm, bandwidthHz)),
    h0: h0 ?? whiteFmLevel(noise.white_fm_adev_1s ?? 0),
    hMinus1: h_minus_1 ?? flickerFmLevel(noise.flicker_fm_adev ?? 0),
    hMinus2: h_minus_2 ?? randomWalkFmLevel(noise.random_walk_fm_adev_1s ?? 0),
    bandwidthHz,
    flickerLongest: noise.flicker_longest_s,
  };
}

/**
 * Noise levels as a noise section: levels h_α, white PM as rms time error, so that no number is converted twice.
 *
 * @param noise - levels
 * @returns what `resolveNoise` turns into the same levels, bit for bit
 */
export function noiseToJson(noise: NoiseLevels) {
  return {
    white_pm_rms_s: noise.whitePmRms,
    h: { h1: noise.h1, h0: noise.h0, h_minus_1: noise.hMinus1, h_minus_2: noise.hMinus2 },
    bandwidth_hz: noise.bandwidthHz,
    flicker_longest_s: noise.flickerLongest,
  };
}
