import { type Budget, budget } from "../../planning/index.ts";
import type { Scenario } from "../../scenario/index.ts";
import type { DelayByPhase } from "../../stages/receiver/index.ts";

/**
 * The rate that a scenario's counter would find in the long run, time base apart: setting error, offset, ageing and
 * temperature over whole days.
 *
 * @param found - a budget of the scenario
 */
export const longRunRate = (found: Budget): number =>
  found.rows
    .filter((row) => row.kind === "explained")
    .reduce((sum, row) => sum + row.fractionOfPeriodRms, 0);

/**
 * Scatter of K readings back to back about their steady course, by theory.
 *
 * Noise of edges adds to each reading alike. Of what the oscillator wanders K readings see more than two neighbours:
 * its Allan variance times K·ln K/(2(K − 1)·ln 2) under flicker FM, times K/2 under random-walk FM.
 *
 * @param found - a budget at their gate
 * @param k - how many; >= 2
 * @returns rms; dimensionless
 *
 * Source: Barnes' bias function B₁(K, 1, μ) for μ = −1, 0, 1 (NIST SP 1065, 5.14).
 */
export function scatterOf(found: Budget, k: number): number {
  const factors: Readonly<Record<string, number>> = {
    "flicker FM": (k * Math.log(k)) / (2 * (k - 1) * Math.LN2),
    "random-walk FM": k / 2,
  };
  return Math.sqrt(
    found.rows
      .filter((row) => row.kind === "accumulating")
      .reduce(
        (sum, row) => sum + (factors[row.cause] ?? 1) * row.fractionOfPeriodRms ** 2,
        found.totalRandomRms ** 2,
      ),
  );
}

/**
 * How far a day's temperature may carry the rate over a run from the rate in the long run, whenever the run begins.
 *
 *   a·min(1, D/(πL)) + b·min(1, D/(2πL)),  a = |linear + 2·parabolic·(T̄ − T₀)|·A,  b = |parabolic|·A²/2,  D a day
 *
 * @param scenario - the scenario
 * @param length - of the run L; s, > 0
 * @returns a bound; dimensionless; 0 where the counter runs on the reference and cannot see it
 *
 * Source: mean of a sinusoid over a stretch, |sin z/z| ≤ min(1, 1/z). Exact case: no coefficients give 0.
 */
export function temperatureSwing(
  { reference, environment, counter }: Scenario,
  length: number,
): number {
  if (counter.timebase === "reference") return 0;
  const { linearPerK, parabolicPerK2, turnoverC } = reference.temperature;
  const swing = environment.dailyAmplitudeK;
  const slope = linearPerK + 2 * parabolicPerK2 * (environment.meanC - turnoverC);
  const waves = 86400 / (Math.PI * length);
  return (
    Math.abs(slope) * swing * Math.min(1, waves) +
    (Math.abs(parabolicPerK2) * swing * swing * Math.min(1, waves / 2)) / 2
  );
}

/** A budget of the scenario's gate. */
export const budgetOf = (scenario: Scenario, delay: DelayByPhase | null): Budget =>
  budget(scenario, scenario.counter.gate, delay);
