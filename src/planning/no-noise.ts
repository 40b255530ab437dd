import type { Scenario, Warning } from "../scenario/index.ts";

/**
 * Where a scenario says nothing of noise, so that theory takes for perfect what nobody has measured.
 *
 * @param scenario - the scenario
 * @param readingRms - of a single reading, by theory; dimensionless
 * @returns a warning with typical sizes for the reference, and for a counter whose readings nothing scatters
 *
 * Source of the sizes: Vig, Introduction to Quartz Frequency Standards (1992), and common practice, from memory.
 */
export function noNoise({ reference, counter }: Scenario, readingRms: number): Warning[] {
  const { whitePmRms, h1, h0, hMinus1, hMinus2 } = reference.noise;
  const isSilent = Math.max(whitePmRms, h1, h0, hMinus1, hMinus2) === 0;
  const found: Warning[] = [];
  if (isSilent && counter.timebase !== "reference") {
    found.push({
      code: "no_noise",
      path: "reference.noise",
      message:
        "is not told, so that theory takes the reference for perfect, which none is; typical Allan deviation at 1 s and flicker " +
        "floor (check the data sheet): quartz 1e-9 and 1e-10, ovened 1e-12 and 1e-11, rubidium 1e-11 and 1e-12",
    });
  }
  if (readingRms === 0) {
    found.push({
      code: "no_scatter",
      path: "counter",
      message:
        "shows readings that nothing scatters, so that nothing follows about how far they can be trusted; typical (check the " +
        "manual): resolution_s 1e-7 or, interpolated, 1e-9; trigger_noise_s noise voltage over slope of the edge",
    });
  }
  return found;
}
