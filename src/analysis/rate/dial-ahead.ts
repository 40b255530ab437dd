import type { Readings } from "../../readings/index.ts";
import { measurementVariance } from "./estimator-response.ts";
import { type RateCandidates, rateCandidates } from "./rate-candidates.ts";
import type { EstimatorMethod } from "./rate-estimate.ts";
import { likelyHypotheses, sourcePredictionVariance } from "./source-noise.ts";
import { mixtureHalfWidth } from "./student-t.ts";

/** What a dial will have gained on the right time, from the end of a run on. */
export interface DialAhead {
  readonly method: EstimatorMethod;
  /** Time ahead; s. */
  readonly after: number;
  /** Gain expected, > 0 = fast; s. */
  readonly gain: number;
  readonly interval95: readonly [number, number];
  /** Part of the gain that comes from a drift found in the readings; s. */
  readonly fromDrift: number;
}

/** Probability of a drift from which on it is carried into the future. */
const driftAbove = 0.8;

/**
 * What the dial will be off by after a time, counted from the end of the run, with a 95 % interval from the
 * rate's own uncertainty and from the noise that the oscillator will go on making.
 *
 *   gain = rate·a (+ D·a·(L + a)/2 where the rate drifts by D),  σ² = a²·(σ_rate² + prediction variance of the source)
 *
 * @param readings - the record
 * @param after - time ahead a; s, > 0
 * @param systematicBound - half-width of what may shift the rate, added; dimensionless, >= 0
 * @param found - slopes and noise of the same record, where they are known already
 * @returns one answer per method that has an uncertainty
 * @throws RangeError if after is not positive
 *
 * Source: own derivation. Exact case: white FM alone, as far ahead as the run was long: √2 × Allan deviation × a.
 */
export function dialAhead(
  readings: Readings,
  after: number,
  systematicBound = 0,
  found: RateCandidates = rateCandidates(readings),
): DialAhead[] {
  if (!(after > 0)) throw new RangeError(`dialAhead: after must be > 0 s, got ${after}`);
  const { candidates, intervals } = found;
  return candidates.flatMap((c) => {
    const { response, noise } = c;
    if (response === null || noise.hypotheses.length === 0) return [];
    const ahead = after / noise.interval;
    const drift = noise.hypotheses.reduce((sum, h) => sum + (h.drift ? h.probability : 0), 0);
    const carried = drift > driftAbove;
    const drifting = noise.hypotheses.filter((h) => h.drift || !carried);
    const hypotheses = likelyHypotheses(drifting);
    const lever = carried ? (intervals + ahead) / 2 : 0;
    let weight = 0;
    let slope = 0;
    for (const h of hypotheses) {
      weight += h.probability;
      slope += h.probability * h.driftEstimate * lever;
    }
    const half = mixtureHalfWidth(
      hypotheses.map((h) =>
        Math.sqrt(
          measurementVariance(h, response) +
            sourcePredictionVariance(h, intervals, ahead) +
            (lever * h.driftUncertainty) ** 2,
        ),
      ),
      hypotheses.map((h) => h.probability),
      hypotheses.map((h) => h.degreesOfFreedom),
      0.95,
    );
    const fromDrift = weight > 0 ? (slope / weight) * after : 0;
    const gain = (c.slope / (1 - c.slope)) * after + fromDrift;
    const width = (half + systematicBound) * after;
    return [
      {
        method: c.method,
        after,
        gain,
        interval95: [gain - width, gain + width] as const,
        fromDrift,
      },
    ];
  });
}
