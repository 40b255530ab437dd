import type { BestFit } from "./best-fit.ts";

/** What the dial will be off by, some time after the record. */
export interface DialAhead {
  readonly method: "best_fit";
  /** s. */
  readonly after: number;
  /** What it gains until then; s. */
  readonly gain: number;
  readonly interval95: readonly [number, number];
}

/**
 * What the dial gains from the end of a record on.
 *
 * @param fit - best fit of the record
 * @param after - time ahead; s, > 0
 * @param systematicBound - half-width of what may shift the rate, added; dimensionless, >= 0
 * @returns gain and its 95 % interval
 *
 * Source: NoisePosterior.ahead. Exact case: white FM alone, as far ahead as the run was long: √2 × Allan deviation × time.
 */
export function dialAhead(fit: BestFit, after: number, systematicBound: number): DialAhead {
  const { posterior, steady } = fit;
  const widened = systematicBound * after;
  if (posterior === null) {
    const [low, high] = steady.interval95;
    const interval95 = [low * after - widened, high * after + widened] as const;
    return { method: "best_fit", after, gain: steady.rate * after, interval95 };
  }
  const { estimate, low, high } = posterior.ahead(after);
  const interval95 = [low - widened, high + widened] as const;
  return { method: "best_fit", after, gain: estimate, interval95 };
}
