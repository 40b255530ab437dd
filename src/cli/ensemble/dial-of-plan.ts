import type { Strategy } from "../../planning/index.ts";
import { type DialAhead, dialAhead, systematicBound } from "../../planning/index.ts";
import type { Scenario } from "../../scenario/index.ts";
import { RateCourse } from "../../stages/oscillator/index.ts";
import { setFrequency } from "../../stages/synthesizer/index.ts";

/**
 * What the dial will be off by some time after a run, against what it shows at the end of the run.
 *
 * Expected is what the scenario itself says of the rate then: offset, ageing, temperature, setting error.
 *
 * @param strategy - the way the rate was measured
 * @param standardUncertainty - of the rate over the run; dimensionless
 * @param runLength - s, > 0
 * @param ahead - s, > 0
 * @param confidence - of the interval; 0 < p < 1
 * @returns the dial's error; s
 */
export function dialOfPlan(
  scenario: Scenario,
  strategy: Strategy,
  standardUncertainty: number,
  runLength: number,
  ahead: number,
  confidence: number,
): DialAhead {
  return dialAhead({
    rate: rateAhead(scenario, runLength, ahead),
    standardUncertainty,
    systematicBound: systematicBound(strategy.systematic),
    runLength,
    ahead,
    levels: scenario.reference.noise,
    confidence,
  });
}

/** Mean rate of the clock over the time ahead, from deterministic causes. */
function rateAhead(scenario: Scenario, from: number, ahead: number): number {
  const { reference, environment, synthesizer, drive, clock, counter } = scenario;
  const wanted = clock.tickHz * clock.stepsPerTick;
  const isDriven = synthesizer !== null && drive !== null;
  const set = isDriven ? setFrequency(synthesizer.outputHz, synthesizer.settingStepHz) : wanted;
  const setting = (set - wanted) / wanted;
  // A counter that runs on the reference cannot see that rate: it is in the bound.
  if (counter.timebase === "reference") return setting;
  const course = new RateCourse(reference, environment);
  const varied = course.variableIntegral(from + ahead) - course.variableIntegral(from);
  const own = course.steadyRate + varied / ahead;
  return own + setting + own * setting;
}
