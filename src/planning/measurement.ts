import { pow } from "../numeric/index.ts";
import type { Scenario } from "../scenario/index.ts";
import {
  type CounterParameters,
  counterNoise,
  type ErrorLaw,
  type GateSetting,
  type GateTiming,
  gateTiming,
  gaussianLaw,
  isStill,
} from "../stages/counter/index.ts";
import { RateCourse } from "../stages/oscillator/index.ts";
import type { DelayByPhase } from "../stages/receiver/index.ts";
import { type NoiseTerm, ownVariance } from "../theory/index.ts";
import { chainNoise, type Input } from "./chain-noise.ts";
import { delayErrors } from "./detection-delay.ts";
import { type GateRace, gateRaceOf } from "./gate-race.ts";
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
  /** What a gate of whole periods does to the mean of readings; null where nothing. */
  readonly race: GateRace | null;
  /** What shifts every rate read, whatever the length of the run. */
  readonly systematic: readonly SystematicCause[];
}

/** Moments of a run at which the deterministic rate of the reference is looked at. */
const moments = 8;
/** Runs longer than so many octaves of a second (97 days) are taken to go on as those do. */
const longest = 23;
const day = 86400;

/** Moments spread over a run: over its days, and over the hours of the day. */
function momentsOf(length: number): readonly number[] {
  const parts = Array.from({ length: moments }, (_, i) => (i + 0.5) / moments);
  return length < day
    ? parts.map((part) => part * length)
    : parts.map((part) => (Math.floor((part * length) / day) + part) * day);
}

const average = (values: readonly number[]) =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

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
  const slips = slipNoise(scenario, input, period, delay);
  const systematic = systematicCauses(scenario, slips);
  const { timebase } = scenario.counter;
  const counted = (rate: number) =>
    timebase === "reference" ? period : (period * (1 + timebase.fractionalOffset)) / (1 + rate);
  const course = new RateCourse(scenario.reference, scenario.environment);
  // The detector's delay makes nearly all the jitter of a clock that has one.
  let known: ErrorLaw | null = null;
  const law = () => {
    known ??= (input === "clock" ? delayErrors(scenario) : null) ?? gaussianLaw;
    return known;
  };
  const periodsOver = (length: number) => momentsOf(length).map((t) => counted(course.rateAt(t)));
  const measure = (setting: GateSetting): Measurement => {
    const counter = { ...scenario.counter, ...setting, input };
    const terms = [...noise, ...slips.terms, ...counterNoise(counter, period)];
    // Trigger noise and resolution spoil the stamp of an edge, not the choice of it.
    const jitter = Math.sqrt(
      terms.reduce((sum, term) => sum + (term.stage === "counter" ? 0 : ownVariance(term)), 0),
    );
    const timing = gateTiming(setting, periodsOver(scenario.length), jitter, law);
    const mean = average(periodsOver(scenario.length));
    const timings = new Map<number, GateTiming>();
    const timingOver = (length: number) => {
      const size = Math.min(longest, Math.round(Math.log2(length)));
      const known = timings.get(size);
      if (known !== undefined) return known;
      const periods = periodsOver(pow(2, size));
      const other = isStill(setting, periods, mean, jitter)
        ? timing
        : gateTiming(setting, periods, jitter, law);
      timings.set(size, other);
      return other;
    };
    const race = gateRaceOf(setting, timing, mean, jitter);
    return { counter, timing, timingOver, terms, jitter, race, systematic };
  };
  return { period, measure };
}
