import { allanVariance, type NoiseLevels } from "../../noise/index.ts";

/**
 * How far an oscillator's own rate wanders from one stretch of time to the next, by Allan deviation.
 *
 * @param noise - its noise levels, of which the frequency noises count
 * @param tau - length of a stretch; s, > 0
 * @returns one entry a noise that is there; dimensionless
 *
 * Source: IEEE Std 1139-2008, Annex B (`allanVariance`).
 */
export function wandering(noise: NoiseLevels, tau: number) {
  const silent = { ...noise, whitePmRms: 0, h1: 0, h0: 0, hMinus1: 0, hMinus2: 0 };
  const alone: readonly (readonly [string, NoiseLevels])[] = [
    ["white FM", { ...silent, h0: noise.h0 }],
    ["flicker FM", { ...silent, hMinus1: noise.hMinus1 }],
    ["random-walk FM", { ...silent, hMinus2: noise.hMinus2 }],
  ];
  return alone
    .map(([cause, levels]) => ({ cause, deviation: Math.sqrt(allanVariance(levels, tau)) }))
    .filter(({ deviation }) => deviation > 0);
}
