import { normalQuantile } from "../../numeric/index.ts";
import { DelayLaw } from "./delay-law.ts";
import { highestCharge } from "./highest-charge.ts";
import type { DrivenTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";

/** How much worse things may become before a burst in a million is missed. */
export interface DriveMargin {
  /** The amplitude may fall to this times what it is; ≤ 1 where there is room. */
  readonly amplitudeRatio: number;
  /** The threshold may rise to this times what it is; ≥ 1 where there is room. */
  readonly thresholdRatio: number;
}

/** The miss probability looked for. */
const oneInAMillion = 1e-6;

/** Relative precision of the ratios. */
const precision = 3e-4;

/** Start phases of each step: the highest charge hardly changes from one to the next. */
const mostPhases = 32;

/** Most steps of a search. */
const mostSteps = 40;

/**
 * Margin of a drive: how far the amplitude may fall, or the threshold rise, before a burst in a million is
 * missed, everything else as it is.
 *
 * @param receiver - the detector
 * @param tone - the tone and the burst
 * @param burstPeriod - time from burst to burst; s
 * @returns the ratios; to 3e-4 of themselves, as far as the miss probability is exact
 * @throws RangeError if the period of the rectified tone exceeds a hundred time constants
 *
 * Source: own definition; root by false position on the normal quantile, nearly straight in the ratio.
 * Exact case: no noise at all and a locked tone, where both ratios tell when the charge just reaches.
 */
export function driveMargin(
  receiver: ReceiverParameters,
  tone: DrivenTone,
  burstPeriod: number,
): DriveMargin {
  const { amplitudeV } = tone;
  const { thresholdV } = receiver;
  const missed = (amplitude: number, threshold: number) =>
    new DelayLaw(
      { ...receiver, thresholdV: thresholdV * threshold },
      { ...tone, amplitudeV: amplitudeV * amplitude },
      burstPeriod,
    ).missesAmong(mostPhases);
  // Where the mean just reaches, and by how much noise and amplitude spread that.
  const reaching = thresholdV / highestCharge(receiver, tone, burstPeriod);
  const noise = receiver.noiseV / thresholdV;
  const spread = Math.sqrt(noise * noise + tone.amplitudeNoise * tone.amplitudeNoise);
  const amplitudeRatio = solve(
    (ratio) => missed(ratio, 1),
    reaching * (1 + 4.75 * spread),
    spread,
    true,
  );
  // Amplitude and threshold scale together but for the noise: a good first guess.
  return {
    amplitudeRatio,
    thresholdRatio: solve((ratio) => missed(1, ratio), 1 / amplitudeRatio, spread, false),
  };
}

/** The ratio at which the miss probability is one in a million, bracketed from a guess. */
function solve(
  missed: (ratio: number) => number,
  guess: number,
  spread: number,
  falls: boolean,
): number {
  const target = normalQuantile(oneInAMillion);
  // f < 0: fewer are missed.
  const f = (ratio: number) => Math.max(-40, Math.min(40, normalQuantile(missed(ratio)) - target));
  let good = guess;
  let bad = guess;
  let goodValue = f(guess);
  let badValue = goodValue;
  // The quantile falls by one for each spread of the ratio, nearly: somewhat further leads beyond.
  const outward = (value: number) => 1 + Math.max(0.01, 1.15 * spread * Math.abs(value));
  for (let i = 0; i < mostSteps && goodValue >= 0; i++) {
    bad = good;
    badValue = goodValue;
    good = falls ? good * outward(badValue) : good / outward(badValue);
    goodValue = f(good);
  }
  for (let i = 0; i < mostSteps && badValue < 0; i++) {
    good = bad;
    goodValue = badValue;
    bad = falls ? bad / outward(goodValue) : bad * outward(goodValue);
    badValue = f(bad);
  }
  let last = 0;
  for (let i = 0; i < mostSteps && Math.abs(bad - good) > precision * good; i++) {
    // False position; an end that stays twice has its value halved (Illinois).
    const share = Math.min(0.98, Math.max(0.02, goodValue / (goodValue - badValue)));
    const ratio = good + share * (bad - good);
    const value = f(ratio);
    if (Math.abs(value) < 1e-2) return ratio;
    if (value < 0) {
      good = ratio;
      goodValue = value;
      if (last < 0) badValue *= 0.5;
    } else {
      bad = ratio;
      badValue = value;
      if (last > 0) goodValue *= 0.5;
    }
    last = value;
  }
  return 0.5 * (good + bad);
}
