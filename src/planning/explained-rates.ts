import type { Scenario } from "../scenario/scenario.ts";

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
 *   offset;  ageing·L/2;  linear·(T̄ − T₀) + parabolic·((T̄ − T₀)² + A²/2), A the daily amplitude
 *
 * @param scenario - the scenario
 * @returns the parts that are not zero
 *
 * Source: mean of a sinusoid and of its square. Exact case: no ageing and no coefficients leave the offset.
 */
export function explainedRates({ reference, environment, length }: Scenario): ExplainedRate[] {
  const { linearPerK, parabolicPerK2, turnoverC } = reference.temperature;
  const warmer = (environment.rampKPerDay * length) / 86400 / 2;
  const apart = environment.meanC + warmer - turnoverC;
  const swing = environment.dailyAmplitudeK;
  return [
    { cause: "offset", rate: reference.fractionalOffset },
    {
      cause: "ageing, mean over the run",
      rate: (reference.agingPerDay * length) / 86400 / 2,
    },
    {
      cause: "temperature, mean over a day",
      rate: linearPerK * apart + parabolicPerK2 * (apart * apart + (swing * swing) / 2),
    },
  ].filter(({ rate }) => rate !== 0);
}
