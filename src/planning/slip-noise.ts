import type { Scenario } from "../scenario/index.ts";
import { edgeSlips } from "../stages/counter/index.ts";
import { droppedBursts } from "../stages/drive/index.ts";
import { type DelayByPhase, stepSlips } from "../stages/receiver/index.ts";
import { type NoiseTerm, slipRate, slipTerm } from "../theory/index.ts";
import type { Input } from "./chain-noise.ts";

/** Whole steps or edges that come to be lost or gained at random. */
export interface SlipNoise {
  /** The scatter of their number, which accumulates. */
  readonly terms: readonly NoiseTerm[];
  /** What they do to the rate on the average; dimensionless, positive = fast. */
  readonly rate: number;
}

/**
 * What bursts that do not arrive or are missed, extra steps, and edges that the counter misses or counts twice do to a rate,
 * where nobody sets them right.
 *
 * n events a second, each of which displaces the time error by d, shift the rate by n·d and scatter as white FM
 * of the level h₀ = 2·n·d².
 *
 * @param scenario - the scenario; its disturbances at set moments are left out
 * @param input - where the counter looks
 * @param period - period of the edges there; s, > 0
 * @param delay - how many bursts that arrive make no step; null where the chain has no receiver
 * @returns terms and mean rate; nothing where no such thing happens
 *
 * Source: Campbell's theorem for a Poisson process. Exact case: no events give rate 0.
 */
export function slipNoise(
  scenario: Scenario,
  input: Input,
  period: number,
  delay: Pick<DelayByPhase, "missProbability" | "blockedProbability"> | null,
): SlipNoise {
  const { counter, clock, drive, receiver } = scenario;
  const slips = [...edgeSlips(counter, period)];
  if (input === "clock" && drive !== null && receiver !== null) {
    const step = period / clock.stepsPerTick;
    const arriving = (1 - drive.dropProbability) / step;
    slips.unshift(droppedBursts(drive, step), ...stepSlips(receiver, arriving, delay, step));
  }
  const happening = slips.filter(({ perSecond }) => perSecond > 0);
  return {
    terms: happening.map(slipTerm),
    rate: happening.reduce((sum, each) => sum + slipRate(each), 0),
  };
}
