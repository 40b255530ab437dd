import type { Scenario } from "../scenario/index.ts";

/** A part of the reference's rate that is known beforehand. */
export interface ExplainedRate {
  /** In words, for tables. */
  readonly cause: string;
  /** Dimensionless, positive = fast. */
  readonly rate: number;
}

/**
 * What is known beforehand of the rate of a scenario's reference, on the average over the run and over whole days.
 *
 *   offset;  ageing·L/2;  linear·(T̄ − T₀) + parabolic·((T̄ − T₀)² + A²/2 + (ramp·L)²/12), A the daily amplitude
 *
 * @param scenario - the scenario
 * @returns the parts that are not zero
 *
 * Source: means of a sinusoid, of a straight line and of their squares. Exact case: no ageing and no coefficients leave the offset.
 */
export function explainedRates({ reference, environment, length }: Scenario): ExplainedRate[] {
  const { linearPerK, parabolicPerK2, turnoverC } = reference.temperature;
  const climb = (environment.rampKPerDay * length) / 86400;
  const apart = environment.meanC + climb / 2 - turnoverC;
  const swing = environment.dailyAmplitudeK;
  const meanSquare = apart * apart + (swing * swing) / 2 + (climb * climb) / 12;
  return [
    { cause: "offset", rate: reference.fractionalOffset },
    {
      cause: "ageing, mean over the run",
      rate: (reference.agingPerDay * length) / 86400 / 2,
    },
    {
      cause: "temperature, mean over a day",
      rate: linearPerK * apart + parabolicPerK2 * meanSquare,
    },
  ].filter(({ rate }) => rate !== 0);
}

/**
 * The mean rate of a scenario's reference over the run, as far as it is known beforehand.
 *
 * @param scenario - the scenario
 * @returns sum of `explainedRates`; dimensionless, positive = fast
 */
export function explainedRate(scenario: Scenario): number {
  return explainedRates(scenario).reduce((sum, { rate }) => sum + rate, 0);
}
