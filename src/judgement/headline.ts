import type { BestFit, HeldRate, SystematicCause } from "./best-fit.ts";

/** The two numbers that a judgement is about. */
export interface Headline {
  readonly overRun: HeldRate;
  readonly steady: HeldRate;
  readonly systematicBound: number;
  readonly systematicCauses: readonly SystematicCause[];
  /** From the first edge to the last; s. */
  readonly duration: number;
}

/**
 * The headline of a best fit.
 *
 * @param bound - half-width of what shifts every reading alike; dimensionless, >= 0
 * @param cause - what it is of
 */
export function headlineOf(fit: BestFit, bound: number, cause: string): Headline {
  const { overRun, steady, duration } = fit;
  const systematicCauses = [...(bound > 0 ? [{ cause, bound }] : []), ...fit.systematic];
  return {
    overRun,
    steady,
    systematicBound: systematicCauses.reduce((sum, one) => sum + one.bound, 0),
    systematicCauses,
    duration,
  };
}
