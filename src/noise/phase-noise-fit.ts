import { exp, log } from "../numeric/index.ts";

/** A point of a phase-noise curve, and what power laws make of it. */
export interface PhaseNoisePoint {
  /** Offset from the carrier; Hz. */
  readonly f: number;
  /** L(f), as given; dBc/Hz. */
  readonly level: number;
}

/** Levels of power laws, h₂ to h₋₂. */
export type FiveLevels = readonly [number, number, number, number, number];

const sweeps = 4000;
/** A law below this share of the model at every point is what rounding left over. */
const negligible = 1e-6;

/** Density S_y of each of the five power laws of unit level at f, h₂ first. */
const laws = (f: number) => [f * f, f, 1, 1 / f, 1 / (f * f)];

const densityOf = (levels: readonly number[], f: number) =>
  laws(f).reduce((sum, law, j) => sum + law * levels[j]!, 0);

/**
 * Frequency-noise density from a phase-noise level.
 *
 *   L(f) = S_φ(f)/2,  S_y(f) = (f/ν₀)²·S_φ(f)
 *
 * @param level - L(f); dBc/Hz
 * @param f - offset from the carrier; Hz
 * @param carrierHz - ν₀; Hz
 * @returns one-sided S_y(f); 1/Hz
 *
 * Source: IEEE Std 1139-2008 (L(f) is half of S_φ).
 */
export function rateDensityOf(level: number, f: number, carrierHz: number): number {
  const ratio = f / carrierHz;
  return 2 * exp((level / 10) * Math.LN10) * ratio * ratio;
}

/**
 * The power laws of frequency noise through points of phase noise.
 *
 * Non-negative levels at which Σ (data/model − 1 − ln(data/model)) is least: errors relative to the model, to second order
 * least squares in dB. Coordinate descent, weighted anew by the model in each sweep.
 *
 * @param points - of the curve, one at least
 * @param carrierHz - ν₀; Hz
 * @returns h₂, h₁, h₀, h₋₁, h₋₂ (s³, s², s, 1, Hz)
 *
 * Sources: IEEE Std 1139-2008 for the laws; quasi-likelihood with variance as the square of the mean: McCullagh & Nelder,
 * Generalized Linear Models (1989), from memory. Exact case: points of one law give that law.
 */
export function fitPhaseNoise(points: readonly PhaseNoisePoint[], carrierHz: number): FiveLevels {
  const data = points.map(({ f, level }) => rateDensityOf(level, f, carrierHz));
  const rows = points.map(({ f }) => laws(f));
  const levels = [0, 0, 0, 0, 0];
  for (let sweep = 0; sweep < sweeps; sweep++) {
    const weights = points.map(({ f }, i) => 1 / (densityOf(levels, f) || data[i]!));
    for (let j = 0; j < 5; j++) {
      let slope = 0;
      let square = 0;
      for (let i = 0; i < rows.length; i++) {
        const column = rows[i]![j]! * weights[i]!;
        slope += column * (data[i]! - densityOf(levels, points[i]!.f)) * weights[i]!;
        square += column * column;
      }
      levels[j] = Math.max(0, levels[j]! + slope / square);
    }
  }
  const isSeen = (level: number, j: number) =>
    rows.some((row, i) => row[j]! * level > negligible * densityOf(levels, points[i]!.f));
  return levels.map((level, j) => (isSeen(level, j) ? level : 0)) as unknown as FiveLevels;
}

/**
 * How far levels miss a point.
 *
 * @param levels - h₂ to h₋₂
 * @param point - of the curve
 * @param carrierHz - ν₀; Hz
 * @returns model over point; dB, −∞ where the levels are all 0
 */
export function missOf(
  levels: FiveLevels,
  { f, level }: PhaseNoisePoint,
  carrierHz: number,
): number {
  return (10 / Math.LN10) * log(densityOf(levels, f) / rateDensityOf(level, f, carrierHz));
}
