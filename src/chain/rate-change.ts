import type { Environment, OscillatorParameters } from "../stages/oscillator/index.ts";

const day = 86400;

/**
 * The most by which ageing and temperature may change the rate of an oscillator within a wait.
 *
 *   |Δy| <= (|ageing| + (|L| + 2·|P|·θ_max)·|dT/dt|_max)·w,  |dT/dt|_max = 2π·A/day + |ramp|
 *
 * θ_max is the largest distance from the turnover temperature in the whole run.
 *
 * @param oscillator - the oscillator
 * @param environment - the temperature it stands in
 * @param wait - w; s, >= 0
 * @param length - length of the run; s
 * @returns bound; dimensionless. Exact case: 0 without ageing and temperature
 */
export function rateChangeWithin(
  oscillator: OscillatorParameters,
  environment: Environment,
  wait: number,
  length: number,
): number {
  const { linearPerK, parabolicPerK2, turnoverC } = oscillator.temperature;
  const { meanC, dailyAmplitudeK, rampKPerDay } = environment;
  const slope = (2 * Math.PI * dailyAmplitudeK + Math.abs(rampKPerDay)) / day;
  const farthest =
    Math.abs(meanC - turnoverC) + dailyAmplitudeK + (Math.abs(rampKPerDay) * length) / day;
  const perKelvin = Math.abs(linearPerK) + 2 * Math.abs(parabolicPerK2) * farthest;
  return (Math.abs(oscillator.agingPerDay) / day + perKelvin * slope) * wait;
}
