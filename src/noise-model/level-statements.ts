import { normalCdf } from "../numeric/index.ts";
import type { GridNode } from "./level-grid.ts";
import { type DeviationLevels, overVariance, toDeviations, type Units } from "./prior.ts";

/** A number with the interval that holds it with 95 %. */
export interface Held {
  readonly estimate: number;
  readonly low: number;
  readonly high: number;
}

/** Half a step of the grid as a standard deviation of ln deviation: uniform over the cell. */
const cell = 0.15;

/** What is known of one level, as the deviation that people give. */
export interface LevelLaw {
  /** Twice the smaller tail beyond a level; below what can be told from nothing all levels are alike. */
  readonly beyond: (level: number) => number;
  /** Median and 95 % interval. Ends that the record cannot tell from nothing are 0. */
  readonly held: () => Held;
}

/**
 * What is known of one level.
 *
 * @param nodes - posterior over levels
 * @param weight - weight of each
 * @param kind - which level
 * @param units - units of the record
 * @returns its law
 *
 * Source: own derivation: each node a Gaussian in ln level as wide as its cell and its σ².
 */
export function levelLaw(
  nodes: readonly GridNode[],
  weight: Float64Array,
  kind: keyof DeviationLevels,
  units: Units,
): LevelLaw {
  const parts: { at: number; weight: number; hidden: boolean }[] = [];
  let nothing = 0;
  nodes.forEach(({ levels, fit, hidden }, i) => {
    const own = toDeviations(levels, units)[kind];
    if (!(own > 0)) {
      nothing += weight[i]!;
      return;
    }
    const root = overVariance(fit.squares, fit.degrees, Math.sqrt);
    parts.push({ at: own * root, weight: weight[i]!, hidden: hidden[kind] });
  });
  parts.sort((a, b) => a.at - b.at);
  // At the grid's lower end there is no telling from nothing.
  const lowest = parts.reduce((most, part) => (part.hidden ? Math.max(most, part.at) : most), 0);
  const below = (x: number): number =>
    parts.reduce((sum, part) => sum + part.weight * kernel(x / part.at), nothing);
  const quantile = (share: number): number => {
    if (nothing >= share || parts.length === 0) return 0;
    let low = parts[0]!.at * 0.3;
    let high = parts.at(-1)!.at * 3;
    for (let step = 0; step < 50; step++) {
      const x = Math.sqrt(low * high);
      if (below(x) < share) low = x;
      else high = x;
    }
    return high <= lowest * 1.05 ? 0 : high;
  };
  return {
    beyond: (level) => {
      const least = Math.max(1.05 * lowest, 0.5 * (parts[0]?.at ?? 0));
      const under = below(Math.max(level, least));
      return Math.min(1, 2 * (level <= least ? under : Math.min(under, 1 - under)));
    },
    held: () => ({ estimate: quantile(0.5), low: quantile(0.025), high: quantile(0.975) }),
  };
}

/** Distribution of a cell in ln level, the ratio being close to 1 wherever it is not 0 or 1. */
function kernel(ratio: number): number {
  if (ratio < 0.4) return 0;
  if (ratio > 2.5) return 1;
  // ln ratio by the first terms of 2·artanh; the cell is no wider than that.
  const s = (ratio - 1) / (ratio + 1);
  return normalCdf((2 * s * (1 + (s * s) / 3)) / cell);
}
