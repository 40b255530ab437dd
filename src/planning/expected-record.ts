import type { Expected } from "../judgement/index.ts";
import type { NoiseLevels } from "../noise/index.ts";
import type { Scenario } from "../scenario/index.ts";
import { explainedRate, RateCourse, wandering } from "../stages/oscillator/index.ts";
import { settingOf } from "../stages/synthesizer/index.ts";
import { ownVariance } from "../theory/index.ts";
import { delayByPhase } from "./detection-delay.ts";
import { measurements } from "./measurement.ts";

const ofTheDrive = new Set(["drive_off", "drive_rate", "amplitude"]);

/**
 * What a scenario lets a record of its counter show: noise levels and steady rate.
 *
 * White PM holds all that one edge suffers. With dead time, where no edge is shared, it holds the white FM of a gate too.
 *
 * @param scenario - the scenario
 * @returns levels as deviations, and the rate as the counter reads it; in words why there is no one expectation, where the
 *   drive is disturbed, or the rate follows temperature or age by more than the ends of a run can show
 * @throws RangeError as `measurements`
 *
 * Source: the theory of the plan. Exact case: a counter on the reference sees no noise of it.
 */
export function expectedRecord(scenario: Scenario): Expected | string {
  if (scenario.disturbances.some(({ kind }) => ofTheDrive.has(kind))) {
    return "the scenario disturbs its drive, so that no one rate is expected";
  }
  const { counter, reference, synthesizer } = scenario;
  const { terms, timing } = measurements(scenario, counter.input, delayByPhase(scenario)).measure(
    counter,
  );
  const edge = terms.reduce((sum, term) => sum + ownVariance(term), 0);
  const course = new RateCourse(reference, scenario.environment);
  const rates = Array.from({ length: 9 }, (_, i) => course.rateAt((i * scenario.length) / 8));
  const swing = Math.max(...rates) - Math.min(...rates);
  if (swing > (2 * Math.sqrt(edge)) / scenario.length) {
    return "the scenario's rate changes with temperature or age over its length, so that no one rate is expected";
  }
  const { timebase } = counter;
  const levels = timebase === "reference" ? [] : [reference.noise, timebase.noise];
  const fm = (cause: string) =>
    Math.hypot(...levels.map((noise: NoiseLevels) => deviationOf(noise, cause)));
  const isApart = counter.technique !== "time_interval" && counter.deadTime > 0;
  const whiteFm = fm("white FM");
  const isSet = synthesizer !== null && counter.input !== "reference";
  const setting = isSet ? settingOf(synthesizer).fractionalError : 0;
  const own = timebase === "reference" ? 0 : explainedRate(scenario);
  const shift = timebase === "reference" ? 0 : timebase.fractionalOffset;
  return {
    levels: {
      whitePm: Math.sqrt(edge + (isApart ? (whiteFm * whiteFm * timing.gate) / 2 : 0)),
      whiteFm: isApart ? 0 : whiteFm,
      flickerFm: fm("flicker FM"),
      randomWalkFm: fm("random-walk FM"),
    },
    rate: ((1 + own) * (1 + setting)) / (1 + shift) - 1,
  };
}

const deviationOf = (noise: NoiseLevels, cause: string): number =>
  wandering(noise, 1).find((one) => one.cause === cause)?.deviation ?? 0;
