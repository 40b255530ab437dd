import { pow } from "../../numeric/index.ts";
import type { NoiseHypothesis } from "./noise-posterior.ts";

/** Flicker or random-walk FM that a record cannot rule out. */
export interface HiddenWander {
  readonly source: "flicker_fm" | "random_walk_fm";
  /** Mean square of what it may add to the rate over the run; dimensionless. */
  readonly variance: number;
}

/** How far the logarithm of the likelihood may fall before a level is rejected, one-sided at 5 %: ½·1.645². */
const rejectedBelow = 1.353;
/**
 * How much likelier noise of another kind must be than noise that wanders, in the logarithm, before that is rejected:
 * mistaken in hardly one record in a thousand, but each of those would be far off.
 */
const mistakenBelow = 8;
/** ln(1e5) − 0.9: flicker FM that goes back a hundred thousand runs, over its level; see below. */
const flickerMemory = 10.6;
/** Mean of a random walk from the start of the run on, over the growth in all: 1/3 end to end, 13/35 for a line. */
const walkMean = 13 / 35;

/**
 * The worst flicker or random-walk FM that a record does not rule out, by what it would do to the rate over the run.
 *
 * Levels too high to hide are rejected against white PM alone, at 5 %. Where more than white PM shows, it must be far
 * more likely to be white FM, flicker PM or a beat. White FM and another noise of the source hidden
 * below it are not thought of: no record could rule that out, however long.
 *
 *   flicker FM h·[ln(f_T/f_l) − 0.9], with a memory of 1e5 runs · random-walk FM r·K·13/35, starting with the run
 *
 * @param hypotheses - from noisePosterior; at least one
 * @param intervals - length of the record in intervals, K
 * @returns the worst of it; null where all is rejected
 *
 * Source: own derivation; one-sided likelihood-ratio limit, Wilks, Ann. Math. Stat. 9, 60 (1938). Memory:
 * ∫ sinc²(πfT)/f df from f_l on is −ln(f_l T) − 0.915. Exact case: no wandering hypothesis gives null.
 */
export function hiddenWander(
  hypotheses: readonly NoiseHypothesis[],
  intervals: number,
): HiddenWander | null {
  const besideWhitePm = hypotheses.filter((h) => h.whitePm > 0);
  const isNested = (h: NoiseHypothesis) =>
    h.source === "none" && h.flickerPm === 0 && h.beats.length === 0;
  const isOther = (h: NoiseHypothesis) => h.source === "none" || h.source === "white_fm";
  const floor = Math.max(
    likeliest(besideWhitePm, isNested) - rejectedBelow,
    likeliest(besideWhitePm, isOther) - mistakenBelow,
  );
  let worst: HiddenWander | null = null;
  for (const source of ["flicker_fm", "random_walk_fm"] as const) {
    const gain = source === "flicker_fm" ? flickerMemory : walkMean * intervals;
    for (const curve of curves(besideWhitePm, source)) {
      const variance = gain * highestLevel(curve, floor);
      if (variance > (worst?.variance ?? 0)) worst = { source, variance };
    }
  }
  return worst;
}

function likeliest(
  hypotheses: readonly NoiseHypothesis[],
  test: (h: NoiseHypothesis) => boolean,
): number {
  let most = Number.NEGATIVE_INFINITY;
  for (const h of hypotheses) if (test(h) && h.logLikelihood > most) most = h.logLikelihood;
  return most;
}

/** Hypotheses that differ in nothing but the level of their source's noise, ascending: without drift, and with it. */
function curves(hypotheses: readonly NoiseHypothesis[], source: NoiseHypothesis["source"]) {
  return [false, true].map((drift) =>
    hypotheses
      .filter((h) => h.source === source && h.drift === drift)
      .sort((a, b) => a.ratio - b.ratio),
  );
}

/** Highest level on a curve not below the floor, between the points of the grid by the logarithm; 0 for none. */
function highestLevel(curve: readonly NoiseHypothesis[], floor: number): number {
  for (let i = curve.length - 1; i >= 0; i--) {
    const h = curve[i]!;
    if (h.logLikelihood < floor) continue;
    const level = h.level * h.ratio;
    const next = curve[i + 1];
    if (next === undefined) return level;
    const share = (h.logLikelihood - floor) / (h.logLikelihood - next.logLikelihood);
    return level * pow((next.level * next.ratio) / level, share);
  }
  return 0;
}
