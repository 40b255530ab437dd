import type { NoiseLevels } from "../noise/index.ts";
import { phaseLadder, rateLadder } from "../noise/index.ts";
import type { Decay } from "./decay.ts";
import type { NoiseTerm } from "./noise-term.ts";

/**
 * Phase noise of an oscillator's edges: white PM, independent from edge to edge, and flicker PM.
 *
 * @param stage - the stage it is told of
 * @param levels - noise levels
 * @returns terms; none where both are zero
 * @throws RangeError as `phaseLadder`
 */
export function phaseNoise(stage: string, levels: NoiseLevels): readonly NoiseTerm[] {
  const terms: NoiseTerm[] = [];
  if (levels.whitePmRms > 0) {
    const variance = levels.whitePmRms * levels.whitePmRms;
    terms.push({ stage, cause: "white PM", shape: { type: "white", variance } });
  }
  if (levels.h1 > 0) {
    const ladder = phaseLadder(levels, shortest(levels));
    const decays = Array.from(
      ladder.timeConstants,
      (time): Decay => ({
        coefficient: { re: ladder.variance, im: 0 },
        pole: { re: -1 / time, im: 0 },
      }),
    );
    terms.push({ stage, cause: "flicker PM", shape: { type: "correlated", decays } });
  }
  return terms;
}

/**
 * Frequency noise of an oscillator, whose time errors accumulate: white, flicker and random-walk FM.
 *
 * Flicker FM is a ladder of stationary relaxation processes up to the longest time constant, a random walk
 * starts from zero.
 *
 * @param stage - the stage it is told of
 * @param levels - noise levels
 * @returns terms; none where all are zero
 * @throws RangeError as `rateLadder`
 */
export function frequencyNoise(stage: string, levels: NoiseLevels): readonly NoiseTerm[] {
  const terms: NoiseTerm[] = [];
  if (levels.h0 > 0) {
    terms.push({ stage, cause: "white FM", shape: { type: "white_fm", h0: levels.h0 } });
  }
  if (levels.hMinus1 > 0) {
    const ladder = rateLadder({ ...levels, h0: 0, hMinus2: 0 }, shortest(levels));
    const variance = (ladder.diffusions[0]! * ladder.timeConstants[0]!) / 2;
    const { timeConstants } = ladder;
    const shape = { type: "relaxing_fm", variance, timeConstants } as const;
    terms.push({ stage, cause: "flicker FM", shape });
  }
  if (levels.hMinus2 > 0) {
    const diffusion = 2 * Math.PI * Math.PI * levels.hMinus2;
    terms.push({ stage, cause: "random-walk FM", shape: { type: "random_walk_fm", diffusion } });
  }
  return terms;
}

/** A scale so fine that the whole ladder is kept; s. */
const shortest = (levels: NoiseLevels) => 1 / (2 * Math.PI * levels.bandwidthHz);
