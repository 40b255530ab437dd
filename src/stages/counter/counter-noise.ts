import { frequencyNoise, type NoiseTerm, phaseNoise, type Slips } from "../../theory/index.ts";
import type { CounterParameters } from "./counter-parameters.ts";

/**
 * What the counter adds to the time error of each stamp.
 *
 * A stamp cut to a resolution q is uniformly spread over q where edges and time base are not in step:
 * variance q²/12 a stamp, q/√6 rms an interval. A direct counter resolves whole periods: q is the period,
 * and trigger noise decides at which moment an edge still falls into the gate. The
 * noise of a time base of its own is measurement noise; a time base fast by y makes rates read slow by y.
 *
 * @param counter - the counter
 * @param period - period of the edges it looks at; s, > 0
 * @returns terms; those that are zero are left out
 *
 * Source: Rubiola, Rev. Sci. Instrum. 76, 054703 (2005). Exact case: q = 1 s gives 1/12 s² a stamp.
 */
export function counterNoise(counter: CounterParameters, period: number): readonly NoiseTerm[] {
  const terms: NoiseTerm[] = [];
  const white = (cause: string, variance: number) => {
    if (variance > 0) {
      terms.push({ stage: "counter", cause, shape: { type: "white", variance } });
    }
  };
  const isDirect = counter.technique === "direct";
  const resolution = isDirect ? period : counter.resolution;
  white("trigger noise", counter.triggerNoise * counter.triggerNoise);
  white(isDirect ? "whole periods counted" : "resolution", (resolution * resolution) / 12);
  if (counter.timebase !== "reference") {
    const { noise } = counter.timebase;
    terms.push(...phaseNoise("time base", noise), ...frequencyNoise("time base", noise));
  }
  return terms;
}

/**
 * Edges that the counter misses, and edges that it counts twice.
 *
 * @param counter - the counter
 * @param period - period of the edges it looks at; s, > 0
 */
export function edgeSlips(counter: CounterParameters, period: number): readonly Slips[] {
  const stage = "counter";
  const { missedEdgeProbability: missed, extraEdgeProbability: extra } = counter;
  return [
    { stage, cause: "missed edges", perSecond: missed / period, displacement: -period },
    { stage, cause: "edges counted twice", perSecond: extra / period, displacement: period },
  ];
}
