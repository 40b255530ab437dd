import { z } from "zod";
import {
  allanVariance,
  flickerFmLevel,
  flickerPmLevel,
  type NoiseLevels,
  randomWalkFmLevel,
  whiteFmLevel,
  whitePmRms,
} from "../noise/index.ts";
import { phaseNoiseSchema, resolvePhaseNoise, tellOfPhaseNoise } from "./phase-noise-key.ts";
import { nonNegative, positive, short } from "./quantity.ts";
import type { KeyPath, SenseReport } from "./sense-report.ts";

/** The key beside `h` that states the same noise as each of the levels in `h`. */
const noiseKeyOfLevel = {
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
    phase_noise: phaseNoiseSchema.optional(),
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
const leastFlickerPmBandwidth = 0.5;

/** A deviation above this is no noise of an oscillator: its edges would overtake each other. */
const largestDeviation = 0.1;

/**
 * The noise levels that a noise section asks for.
 *
 * @param noise - the section; at most one key for each kind of noise
 * @param edgeRateHz - edge rate of the stage, inside a loop the rate at which it compares: the band ends at half of it
 * unless the section says otherwise; Hz, > 0
 * @param path - where the section stands
 * @param report - where it is noted that the keys do not fix the noise
 * @returns levels h_α, white PM as rms time error; what the section does not name is 0
 *
 * Source: IEEE Std 1139-2008, Annex B. Exact case: white_fm_adev_1s 1 gives h0 = 2.
 */
export function resolveNoise(
  noise: NoiseDocument,
  edgeRateHz: number,
  path: KeyPath,
  report: SenseReport,
): NoiseLevels {
  const bandwidthHz = noise.bandwidth_hz ?? edgeRateHz / 2;
  const shortest = 1 / (2 * Math.PI * bandwidthHz);
  if (noise.flicker_longest_s <= shortest) {
    report.fault(
      [...path, "flicker_longest_s"],
      `is not above the shortest relaxation time, ${short(shortest)} s by the ${bandwidthHz} Hz at which the noise ends`,
      "raise it, or raise bandwidth_hz",
    );
  }
  const flickerPm = noise.flicker_pm_adev_1s ?? 0;
  const isFixed = flickerPm === 0 || bandwidthHz >= leastFlickerPmBandwidth;
  if (!isFixed) {
    report.fault(
      [...path, "flicker_pm_adev_1s"],
      `does not fix the noise where its band ends at ${bandwidthHz} Hz`,
      `give h: { h1: … } instead, or a bandwidth_hz of at least ${leastFlickerPmBandwidth}`,
    );
  }
  const phasePath = [...path, "phase_noise"];
  const fitted = noise.phase_noise && resolvePhaseNoise(noise.phase_noise, phasePath, report);
  const { h2 = fitted?.[0] ?? 0, h1, h0, h_minus_1, h_minus_2 } = noise.h ?? {};
  const from = (
    deviation: number | undefined,
    level: (deviation: number) => number,
    law: number,
  ) => (deviation === undefined ? (fitted?.[law] ?? 0) : level(deviation));
  const levels = {
    whitePmRms: noise.white_pm_rms_s ?? whitePmRms(h2, bandwidthHz),
    h1:
      h1 ??
      from(
        noise.flicker_pm_adev_1s,
        (pm) => (pm > 0 && isFixed ? flickerPmLevel(pm, bandwidthHz) : 0),
        1,
      ),
    h0: h0 ?? from(noise.white_fm_adev_1s, whiteFmLevel, 2),
    hMinus1: h_minus_1 ?? from(noise.flicker_fm_adev, flickerFmLevel, 3),
    hMinus2: h_minus_2 ?? from(noise.random_walk_fm_adev_1s, randomWalkFmLevel, 4),
    bandwidthHz,
    flickerLongest: noise.flicker_longest_s,
  };
  if (noise.phase_noise && report.faults.length === 0) {
    const used = (4 * Math.PI * Math.PI * levels.whitePmRms * levels.whitePmRms) / bandwidthHz;
    const five = [used, levels.h1, levels.h0, levels.hMinus1, levels.hMinus2] as const;
    const isAnchored = (noise.flicker_fm_adev ?? h_minus_1) !== undefined;
    tellOfPhaseNoise(noise.phase_noise, five, isAnchored, phasePath, report);
  }
  return levels;
}

/**
 * Checks an oscillator's noise: is it small against the signal it is on?
 *
 * The models hold while time errors are small against the time they build up in; an Allan deviation
 * of a tenth, in a single period or over the whole run, is no longer a clock.
 *
 * @param noise - levels
 * @param times - the shortest and the longest averaging time at which it shows; s, > 0
 * @param path - where the section stands
 * @param report - where findings go
 */
export function senseOfNoise(
  noise: NoiseLevels,
  times: readonly [shortest: number, longest: number],
  path: KeyPath,
  report: SenseReport,
): void {
  // Flicker PM, slowly growing with the band, as if it were white.
  const whitePm = Math.sqrt(noise.whitePmRms * noise.whitePmRms + noise.h1);
  for (const tau of times) {
    const found = Math.sqrt(allanVariance({ ...noise, h1: 0, whitePmRms: whitePm }, tau));
    if (found <= largestDeviation) continue;
    report.fault(
      path,
      `is so large that it makes an Allan deviation of ${short(found)} at ${short(tau)} s; above ${largestDeviation} nothing is left of the clock`,
      "levels are fractions or seconds, not parts per million or nanoseconds",
    );
    return;
  }
}
