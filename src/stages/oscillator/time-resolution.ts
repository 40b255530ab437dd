import type { ReferenceRun } from "./explained-rates.ts";

/**
 * Spacing of the doubles that hold the time errors at the end of the run: the steady rate is in the grid of
 * edges and costs nothing, what varies (ageing, temperature) is one double.
 *
 * @param run - reference, environment and length
 * @returns s
 */
export function timeResolution({ reference, environment, length }: ReferenceRun): number {
  const days = length / 86400;
  const aging = (Math.abs(reference.agingPerDay) / 2) * days * length;
  const { linearPerK, parabolicPerK2, turnoverC } = reference.temperature;
  const swing = environment.dailyAmplitudeK + Math.abs(environment.rampKPerDay) * days;
  const away = Math.abs(environment.meanC - turnoverC) + swing;
  const temperature = (Math.abs(linearPerK) + 2 * Math.abs(parabolicPerK2) * away) * swing * length;
  let spacing = Number.EPSILON;
  for (let size = 2; size <= aging + temperature; size *= 2) spacing *= 2;
  return spacing;
}
