import type { DeviationLevels } from "../noise-model/index.ts";
import { normalCdf } from "../numeric/index.ts";
import { type BestFit, type HeldLevel, levelKinds } from "./best-fit.ts";

/** What is expected of a record before it is read. */
export interface Expected {
  readonly levels: DeviationLevels;
  /** Steady rate, as the counter reads it; dimensionless. */
  readonly rate: number;
}

/** One quantity of a record beside what was expected of it. */
export interface Compared {
  readonly quantity: HeldLevel["kind"] | "rate";
  readonly found: number;
  readonly interval95: readonly [number, number];
  readonly expected: number;
  /** Of a deviation as large, if what was expected is true; 0 to 1. */
  readonly probability: number;
}

/** The same, and whether that is likely enough. */
export type Verdict = Compared & { readonly agrees: boolean };

/** Whether a record is as expected. */
export interface Agreement {
  /** Whether the noise is, and whether the rate is. */
  readonly noise: boolean;
  readonly rate: boolean;
  readonly compared: readonly Verdict[];
}

/** Probability below which something is said not to agree, over all that is compared. */
const unlikely = 0.01;

/**
 * Whether a record is as expected, by what it says without any expectation.
 *
 * @param fit - its best fit, with nothing known of its levels
 * @param expected - levels and rate
 * @param bound - half-width of what may shift the rate; dimensionless, >= 0
 * @returns each quantity with its probability, that of a level from its posterior: twice the smaller tail
 *
 * Source: posterior of the levels; Bonferroni's bound over the five. Exact case: a rate in the middle of its interval
 * has the probability 1.
 */
export function agreementWith(fit: BestFit, expected: Expected, bound: number): Agreement {
  const { posterior, steady, levels } = fit;
  const compared: Compared[] = levelKinds.map((kind, i) => {
    const { estimate, low, high } = levels[i]!;
    const level = expected.levels[kind];
    return {
      quantity: kind,
      found: estimate,
      interval95: [low, high],
      expected: level,
      probability: posterior === null ? 1 : posterior.levelBeyond(kind, level),
    };
  });
  const [low, high] = steady.interval95;
  const off = Math.max(0, Math.abs(steady.rate - expected.rate) - bound);
  compared.push({
    quantity: "rate",
    found: steady.rate,
    interval95: steady.interval95,
    expected: expected.rate,
    probability: 2 * normalCdf((-1.96 * 2 * off) / (high - low)),
  });
  const verdicts = compared.map((one) => ({
    ...one,
    agrees: one.probability >= unlikely / compared.length,
  }));
  return {
    noise: verdicts.every(({ quantity, agrees }) => quantity === "rate" || agrees),
    rate: verdicts.at(-1)!.agrees,
    compared: verdicts,
  };
}
