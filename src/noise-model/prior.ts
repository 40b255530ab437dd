import { exp, log } from "../numeric/index.ts";
import type { Levels } from "./levels.ts";

/** What is known of the source before the readings; amounts as a data sheet gives them. */
export interface Known {
  /** Bound on the flicker floor: Allan deviation; dimensionless. */
  readonly floor?: number;
  /** Bound on white FM: Allan deviation at 1 s; dimensionless. */
  readonly whiteFm?: number;
  /** Levels of a scenario: what the record is expected to hold. */
  readonly expected?: DeviationLevels;
}

/** Noise levels as people give them. */
export interface DeviationLevels {
  /** White PM: rms time error of one edge; s. */
  readonly whitePm: number;
  /** White FM: Allan deviation at 1 s; dimensionless. */
  readonly whiteFm: number;
  /** Flicker FM: Allan deviation of the floor; dimensionless. */
  readonly flickerFm: number;
  /** Random-walk FM: Allan deviation at 1 s; dimensionless. */
  readonly randomWalkFm: number;
}

/** Units of a record; see ScaledEvents. */
export interface Units {
  readonly timeUnit: number;
  readonly phaseUnit: number;
}

/** Levels in a record's units. */
export function toLevels(given: DeviationLevels, { timeUnit, phaseUnit }: Units): Levels {
  const time = timeUnit / phaseUnit;
  const square = (x: number) => x * x;
  return {
    pm: square(given.whitePm / phaseUnit),
    wfm: square(given.whiteFm) * time * (1 / phaseUnit),
    ffm: square(given.flickerFm * time),
    rw: 3 * square(given.randomWalkFm * time) * timeUnit,
  };
}

/** Levels as people give them, from a record's. */
export function toDeviations(levels: Levels, { timeUnit, phaseUnit }: Units): DeviationLevels {
  const rate = phaseUnit / timeUnit;
  return {
    whitePm: Math.sqrt(levels.pm) * phaseUnit,
    whiteFm: rate * Math.sqrt(levels.wfm * timeUnit),
    flickerFm: Math.sqrt(levels.ffm) * rate,
    randomWalkFm: rate * Math.sqrt(levels.rw / 3 / timeUnit),
  };
}

/** Stated bounds are stretched by this: a level just at its bound shall not stand at the prior's edge. */
export const boundStretch = 1.5;
/** Standard deviation of ln(level/expected) of a scenario's levels, as deviations: a factor of 1.5. */
const expectedSpread = 0.4;
/** Least weight of a level that was not expected. */
const surprise = 1e-12;
/** Points of equal weight that stand for a Gaussian: its quantiles at 0.1, 0.3, 0.5, 0.7, 0.9. */
const quantiles = [-1.281552, -0.524401, 0, 0.524401, 1.281552];

/**
 * Mean of a function of σ² over its posterior rss/χ²_ν, by five points (Wilson & Hilferty's quantiles of χ²).
 *
 * Source: Abramowitz & Stegun 26.4.17.
 */
export function overVariance(
  squares: number,
  degrees: number,
  of: (variance: number) => number,
): number {
  const a = 2 / (9 * degrees);
  let sum = 0;
  for (const z of quantiles) {
    const root = Math.max(1 - a + z * Math.sqrt(a), 0.05);
    sum += of(squares / (degrees * root * root * root));
  }
  return sum / quantiles.length;
}

/** Lowest levels that the grid can tell from none, over σ²: below them nothing is said of a level. */
export type Visible = Pick<Levels, "wfm" | "ffm" | "rw">;

/**
 * ln of the weight that what is known gives to a node of the grid, whose own measure is flat in ln of each level.
 * A bound means: uniform in deviation from 0 to one and a half times it. An expected level: ln level Gaussian.
 *
 * @param levels - levels of the node over σ²
 * @param visible - the lowest that the grid can tell from none
 * @param variance - squares and degrees of σ² at the node
 * @param known - bounds and expected levels in the record's units, those of bounds as variances
 * @returns ln weight, −∞ where it is ruled out
 */
export function logWeight(
  levels: Levels,
  visible: Visible,
  variance: { squares: number; degrees: number },
  known: { wfm?: number; expected?: Levels },
): number {
  if (known.wfm === undefined && known.expected === undefined) return 0;
  const { expected } = known;
  const highest = boundStretch * boundStretch * (known.wfm ?? 0);
  const weight = overVariance(variance.squares, variance.degrees, (s) => {
    let w = 1;
    if (expected !== undefined) {
      w *= near(s * levels.pm, expected.pm, 0);
      w *= near(s * levels.wfm, expected.wfm, s * visible.wfm);
      w *= near(s * levels.ffm, expected.ffm, s * visible.ffm);
      w *= near(s * levels.rw, expected.rw, s * visible.rw);
    } else if (known.wfm !== undefined) {
      // The least white FM of the grid stands for none: a bound below it rules out all but that.
      const isNone = levels.wfm <= visible.wfm && s * visible.wfm > highest;
      if (levels.wfm === 0 || isNone) return w;
      w *= s * levels.wfm <= highest ? Math.sqrt((s * levels.wfm) / highest) : 0;
    }
    return w;
  });
  return weight > 0 ? log(weight) : -Infinity;
}

/** Gaussian weight of ln(level/expected); the lowest that can be told stands for all below it. */
function near(level: number, expected: number, lowest: number): number {
  const isLowest = level <= 1.001 * lowest;
  if (isLowest && expected <= lowest) return 1;
  const z =
    (0.5 * log(Math.max(level, lowest, 1e-300) / Math.max(expected, 1e-300))) / expectedSpread;
  return Math.max(surprise, exp(-0.5 * z * z));
}
