import {
  flickerFmLevel,
  flickerPmLevel,
  randomWalkFmLevel,
  whiteFmLevel,
  whitePmRms,
} from "../noise/noise-conversions.ts";
import type { NoiseLevels } from "../noise/noise-levels.ts";
import type { NoiseDocument } from "./noise-schema.ts";

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
 * @param edgeRateHz - edge rate of the stage: the band ends at half of it unless the section says
 * otherwise; Hz, > 0
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
