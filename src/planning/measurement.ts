import type { CounterParameters } from "../counter/counter-parameters.ts";
import { RateCourse } from "../oscillator/rate-course.ts";
import type { Scenario } from "../scenario/scenario.ts";
import type { DelayByPhase } from "./beat-noise.ts";
import { chainNoise, type Input, ownVariance } from "./chain-noise.ts";
import { counterNoise } from "./counter-noise.ts";
import { delayLaw } from "./delay-law.ts";
import { type ErrorLaw, gaussianLaw } from "./error-law.ts";
import { type GateSetting, type GateTiming, gateTiming } from "./gate-timing.ts";
import type { NoiseTerm } from "./noise-term.ts";
import { slipNoise } from "./slip-noise.ts";
import { type SystematicCause, systematicCauses } from "./systematic-bound.ts";

/** A counter set in a certain way at a certain point of the chain, and what it sees there. */
export interface Measurement {
  /** How the counter of the scenario is set. */
  readonly counter: CounterParameters;
  readonly timing: GateTiming;
  /** The same in a run of another length (s), over which the reference's rate takes another course. */
  readonly timingOver: (length: number) => GateTiming;
  /** Measurement noise, cause by cause. */
  readonly terms: readonly NoiseTerm[];
  /** Rms time error of a single edge in counter time, all that does not accumulate; s. */
  readonly jitter: number;
  /** What shifts every rate read, whatever the length of the run. */
  readonly systematic: readonly SystematicCause[];
}

/** Moments of a run at which the deterministic rate of the reference is looked at. */
const moments = 8;

/**
 * What a scenario's counter sees at one point of the chain, for any setting of it.
 *
 * @param scenario - the scenario
 * @param input - where the counter looks
 * @param delay - detection delay by phase of the tone; null where the chain has no receiver
 * @returns the period of the edges in s, and a function from setting to measurement
 * @throws RangeError as `chainNoise`
 */
export function measurements(scenario: Scenario, input: Input, delay: DelayByPhase | null) {
  const { period, noise } = chainNoise(scenario, input, delay);
  const slips = slipNoise(scenario, input, period, delay?.missProbability ?? 0);
  const systematic = systematicCauses(scenario, slips);
  const { timebase } = scenario.counter;
  const counted = (rate: number) =>
    timebase === "reference" ? period : (period * (1 + timebase.fractionalOffset)) / (1 + rate);
  const course = new RateCourse(scenario.reference, scenario.environment);
  // The detector's delay makes nearly all the jitter of a clock that has one.
  let known: ErrorLaw | null = null;
  const law = () => {
    known ??= (input === "clock" ? delayLaw(scenario) : null) ?? gaussianLaw;
    return known;
  };
  const periodsOver = (length: number) =>
    Array.from({ length: moments }, (_, i) =>
      counted(course.rateAt(((i + 0.5) / moments) * length)),
    );
  const measure = (setting: GateSetting): Measurement => {
    const counter = { ...scenario.counter, ...setting, input };
    const terms = [...noise, ...slips.terms, ...counterNoise(counter, period)];
    // Trigger noise and resolution spoil the stamp of an edge, not the choice of it.
    const jitter = Math.sqrt(
      terms.reduce((sum, term) => sum + (term.stage === "counter" ? 0 : ownVariance(term)), 0),
    );
    const timings = new Map<number, GateTiming>();
    const timingOver = (length: number) => {
      const size = Math.round(2 * Math.log2(length));
      const timing = timings.get(size) ?? gateTiming(setting, periodsOver(length), jitter, law);
      timings.set(size, timing);
      return timing;
    };
    const timing = gateTiming(setting, periodsOver(scenario.length), jitter, law);
    return { counter, timing, timingOver, terms, jitter, systematic };
  };
  return { period, measure };
}
