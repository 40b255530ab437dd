import type { Scenario } from "../scenario/index.ts";
import type { DelayByPhase } from "./beat-noise.ts";
import type { Input } from "./chain-noise.ts";
import type { NoiseTerm, Stage } from "./noise-term.ts";

/** Whole steps or edges that come to be lost or gained at random. */
export interface SlipNoise {
  /** The scatter of their number, which accumulates. */
  readonly terms: readonly NoiseTerm[];
  /** What they do to the rate on the average; dimensionless, positive = fast. */
  readonly rate: number;
}

/** A burst in so many is nobody's concern. */
const negligible = 1e-15;

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
  const terms: NoiseTerm[] = [];
  let rate = 0;
  const add = (stage: Stage, cause: string, perSecond: number, displacement: number) => {
    if (perSecond === 0) return;
    const h0 = 2 * perSecond * displacement * displacement;
    terms.push({ stage, cause, shape: { type: "white_fm", h0 } });
    rate += perSecond * displacement;
  };
  if (input === "clock" && drive !== null && receiver !== null) {
    const step = period / clock.stepsPerTick;
    add("drive", "dropped bursts", drive.dropProbability / step, -step);
    const arriving = (1 - drive.dropProbability) / step;
    const lost = (probability = 0) => (probability < negligible ? 0 : probability) * arriving;
    add("receiver", "missed bursts", lost(delay?.missProbability), -step);
    add("receiver", "blocked bursts", lost(delay?.blockedProbability), -step);
    add("receiver", "extra steps", receiver.extraStepRateHz, step);
  }
  add("counter", "missed edges", counter.missedEdgeProbability / period, -period);
  add("counter", "edges counted twice", counter.extraEdgeProbability / period, period);
  return { terms, rate };
}
