import { type EstimatorResponse, measurementVariance } from "./estimator-response.ts";
import { type HiddenWander, hiddenWander } from "./hidden-wander.ts";
import type { NoiseHypothesis } from "./noise-posterior.ts";
import { mixtureHalfWidth } from "./student-t.ts";

/** Half-width at 95 % and standard uncertainty of one slope. */
interface Width {
  readonly standardUncertainty: number;
  readonly halfWidth: number;
}

/** Half-widths and standard uncertainties of one slope, from the noise found in its record. */
export interface HonestInterval extends Width {
  /** Null where the noise found lets no mean converge, or where the record cannot tell. */
  readonly steady: Width | null;
  /** Why there is no steady interval; empty where there is one. */
  readonly steadyWhy: string;
  /** What the half-width rests on that the record cannot know; empty where it knows. */
  readonly proviso: string;
}

/**
 * How much wider noise that cannot be ruled out may make a steady interval before none is given. A limit that falls from
 * 3 at 20 readings to this at 2000 lets none more through at 20 or 200, where such noise would widen them tenfold; at
 * 1200 it does, and random-walk FM at the edge of what shows is then among those it lets through.
 */
const widestSteady = 1.3;
/**
 * How much likelier the likeliest noise must be, in the logarithm, before a record rules flicker PM out: records
 * of twenty readings of it do so in one of twenty (measured).
 */
const ruledOutBy = 2.5;
/** How much wider flicker PM must make an interval before that is said. */
const toldFrom = 1.3;

/**
 * Two 95 % intervals of a slope: about the rate over the run, for which only the measurement's noise counts,
 * and about the steady rate, for which the source's counts too.
 *
 * The first weighs every noise hypothesis by its probability. A short record cannot tell flicker PM from
 * white FM: of 20 readings, an interval that held for it would be four to eight times as wide as under white FM it must
 * be. So it is no wider than probability makes it, and what flicker PM would make of it is said: in one record of white
 * PM in seven of 60 readings, one in a hundred of 100, and none of 200 (measured).
 *
 * The second holds for the noise that shows and, beside it, for the worst flicker or random-walk FM that the record does
 * not rule out; where this makes it more than 1.3 times as wide there is none. So it is with few readings (20 cannot tell
 * white from flicker FM), with a line through white PM (which knows the rate far better than it can know that the rate
 * holds still), and with readings that have dead time (whose white noise may be all the counter's, and hide the flicker
 * floor of its clock).
 *
 * @param hypotheses - from noisePosterior; at least one
 * @param response - of the estimator, in the units of the hypotheses' levels
 * @param intervals - length of the record in intervals
 * @returns half-widths and standard uncertainties of the slope; dimensionless
 *
 * Source: own derivation; weighing models by their probability: Hoeting et al., Statist. Sci. 14, 382 (1999). Exact
 * case: white measurement noise alone gives Student's t.
 */
export function honestInterval(
  hypotheses: readonly NoiseHypothesis[],
  response: EstimatorResponse,
  intervals: number,
): HonestInterval {
  const measurement = (h: NoiseHypothesis) => measurementVariance(h, response);
  const run = combine(hypotheses, measurement);
  const proviso = ifFlickerPm(hypotheses, measurement, run);
  return { ...run, ...steadyInterval(hypotheses, response, intervals), proviso };
}

function steadyInterval(
  hypotheses: readonly NoiseHypothesis[],
  response: EstimatorResponse,
  intervals: number,
): Pick<HonestInterval, "steady" | "steadyWhy"> {
  const still = hypotheses.filter((h) => h.source === "none" || h.source === "white_fm");
  const probability = still.reduce((sum, h) => sum + h.probability, 0);
  if (probability < 0.5) {
    const steadyWhy = "flicker or random-walk FM shows in the readings, so that no mean converges";
    return { steady: null, steadyWhy };
  }
  const variance = (h: NoiseHypothesis) =>
    measurementVariance(h, response) + h.level * h.ratio * response.whiteFm;
  const hidden = hiddenWander(hypotheses, intervals);
  const shift = hidden?.variance ?? 0;
  const known = still.reduce((sum, h) => sum + h.probability * variance(h), 0) / probability;
  if (hidden !== null && known + shift > widestSteady ** 2 * known) {
    return { steady: null, steadyWhy: hiddenWhy(hidden) };
  }
  return { steady: combine(still, (h) => variance(h) + shift), steadyWhy: "" };
}

function hiddenWhy({ source, variance }: HiddenWander): string {
  const name = source === "flicker_fm" ? "flicker FM" : "random-walk FM";
  return `${name} that these readings cannot rule out may shift them all by ${Math.sqrt(variance).toExponential(0)} rms`;
}

/** How much wider the interval would be if all of the jitter were flicker PM; empty where that is ruled out. */
function ifFlickerPm(
  hypotheses: readonly NoiseHypothesis[],
  variance: (h: NoiseHypothesis) => number,
  run: Width,
): string {
  const kind = hypotheses.filter((h) => h.source === "none" && h.flickerPm > 0);
  const most = kind.reduce((ratio, h) => Math.max(ratio, h.flickerPm), 0);
  const alone = kind.filter((h) => h.flickerPm === most);
  const likeliest = (among: readonly NoiseHypothesis[]) =>
    among.reduce((log, h) => Math.max(log, h.logLikelihood), Number.NEGATIVE_INFINITY);
  if (!(likeliest(alone) > likeliest(hypotheses) - ruledOutBy)) return "";
  const wider = combine(alone, variance).halfWidth / run.halfWidth;
  return wider < toldFrom
    ? ""
    : `flicker PM, which the readings do not rule out, would make the interval ${wider.toFixed(1)} times as wide`;
}

/** Parts whose scales agree within five per cent are one, of their mean scale: that changes the result by far less. */
function combine(
  hypotheses: readonly NoiseHypothesis[],
  variance: (h: NoiseHypothesis) => number,
): Width {
  const parts = new Map<number, { scale: number; weight: number; dof: number }>();
  let total = 0;
  let mean = 0;
  for (const h of hypotheses) {
    const v = variance(h);
    total += h.probability;
    mean += h.probability * v;
    const key = h.degreesOfFreedom * 1e5 + Math.round(Math.log(v) * 10);
    const part = parts.get(key);
    if (part === undefined) {
      parts.set(key, { scale: Math.sqrt(v), weight: h.probability, dof: h.degreesOfFreedom });
    } else {
      part.scale += ((Math.sqrt(v) - part.scale) * h.probability) / (part.weight + h.probability);
      part.weight += h.probability;
    }
  }
  const list = [...parts.values()];
  return {
    standardUncertainty: Math.sqrt(mean / total),
    halfWidth: mixtureHalfWidth(
      list.map((p) => p.scale),
      list.map((p) => p.weight),
      list.map((p) => p.dof),
      0.95,
    ),
  };
}
