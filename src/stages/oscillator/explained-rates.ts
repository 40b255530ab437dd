import type { Environment, OscillatorParameters } from "./oscillator-parameters.ts";

/** A reference, what it stands in, and for how long. */
export interface ReferenceRun {
  readonly reference: OscillatorParameters;
  readonly environment: Environment;
  /** s, > 0. */
  readonly length: number;
}

/** A part of the reference's rate that is known beforehand. */
export interface ExplainedRate {
  /** In words, for tables. */
  readonly cause: string;
  /** Dimensionless, positive = fast. */
  readonly rate: number;
}

/**
 * What is known beforehand of the rate of a reference, on the average over the run and over whole days.
 *
 *   offset;  ageing·L/2;  linear·(T̄ − T₀) + parabolic·((T̄ − T₀)² + A²/2 + (ramp·L)²/12), A the daily amplitude
 *
 * @param run - reference, environment and length
 * @returns the parts that are not zero
 *
 * Source: means of a sinusoid, of a straight line and of their squares. Exact case: no ageing and no coefficients leave the offset.
 */
export function explainedRates({ reference, environment, length }: ReferenceRun): ExplainedRate[] {
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
 * The mean rate of a reference over the run, as far as it is known beforehand.
 *
 * @param run - reference, environment and length
 * @returns sum of `explainedRates`; dimensionless, positive = fast
 */
export function explainedRate(run: ReferenceRun): number {
  return explainedRates(run).reduce((sum, { rate }) => sum + rate, 0);
}
