import { exp, log } from "../numeric/index.ts";
import { estimatorVariance } from "./estimator-variance.ts";
import { type FaultScan, faultScan, type Possibility } from "./fault-scan.ts";
import { forecast } from "./forecast.ts";
import { slowerThanLadder } from "./ladder.ts";
import type { Estimate } from "./least-squares-pass.ts";
import { type GridNode, levelGrid } from "./level-grid.ts";
import { type Held, levelLaw } from "./level-statements.ts";
import { type RunVariances, runVariances } from "./longer-run.ts";
import type { DeviationLevels, Known } from "./prior.ts";
import { sourceVariance } from "./source-variance.ts";
import { heldBy, mixtureQuantile, type StudentMixture } from "./student-mixture.ts";
import type { ScaledEvents } from "./to-events.ts";

/** How sure a linear estimate of the slope is; dimensionless. */
export interface EstimatorUncertainty {
  readonly overRun: { readonly rms: number; readonly half: number };
  readonly steady: { readonly rms: number; readonly half: number };
  readonly nextRun: number;
}

/** What a record says of its noise, and of its rate averaged over that. Slopes are s of x = s·t; see `rate` = s/(1 − s). */
export class NoisePosterior {
  readonly scaled: ScaledEvents;
  readonly nodes: readonly GridNode[];
  /** Weight of each node; they sum to 1. */
  readonly weight: Float64Array;
  /** Flicker ladder; time units. */
  readonly times: Float64Array;
  /** Faults that may be there; null where they were not looked for. */
  readonly scan: FaultScan | null;
  private readonly possibilities: readonly Possibility[];
  /** Variance of slower noise than the ladder holds, in floors. */
  private readonly slower: number;

  /**
   * @param scaled - the record
   * @param known - what is known of its source
   * @param faults - whether to look for faults and to average over them
   */
  constructor(scaled: ScaledEvents, known: Known = {}, faults = true) {
    this.scaled = scaled;
    const { nodes, times } = levelGrid(scaled, known);
    this.nodes = nodes;
    this.times = times;
    const best = nodes.reduce((most, node) => Math.max(most, node.logPosterior), -Infinity);
    const parts = nodes.map((node) => exp(node.logPosterior - best));
    const total = parts.reduce((a, b) => a + b, 0);
    this.weight = Float64Array.from(parts, (part) => part / total);
    this.slower = slowerThanLadder(times, scaled.events.duration);
    this.scan = faults ? faultScan(scaled, nodes, this.weight, times) : null;
    const none = { shift: 0, variance: 0 };
    this.possibilities =
      this.scan?.possibilities ??
      nodes.map((node, i) => ({
        node,
        weight: this.weight[i]!,
        squares: node.fit.squares,
        steady: none,
        overRun: none,
      }));
  }

  /** Slope over the run, without the noise of edges; dimensionless. Held with a probability, 95 % by default. */
  overRun(share?: number): Held {
    return this.slopeHeld(
      ({ node, overRun }) => ({
        value: node.fit.overRun.value + overRun.shift,
        variance: node.fit.overRun.variance + overRun.variance,
      }),
      share,
    );
  }

  /** Steady slope: the deterministic rate over the run; dimensionless. */
  steady(share?: number): Held {
    return this.slopeHeld(
      ({ node, steady }) => ({
        value: node.fit.steady.value + steady.shift,
        variance: node.fit.steady.variance + steady.variance + this.slower * node.levels.ffm,
      }),
      share,
    );
  }

  /**
   * How far the mean rate of another stretch may lie from that of this record by noise.
   *
   * @param length - of the other stretch; time units, back to back
   * @param away - from middle to middle; time units
   * @param share - probability to hold
   * @returns half-width; dimensionless
   */
  differs(length: number, away: number, share: number): number {
    const { events, phaseUnit, timeUnit } = this.scaled;
    const { duration } = events;
    const mixture = this.mixture(({ node }) => {
      const { pm, wfm, ffm, rw } = node.levels;
      const ends = 2 * pm * (1 / (length * length) + 1 / (duration * duration));
      // A floor parts two rates the more the shorter one is than what lies between.
      const apart = 1 + log(1 + away / length);
      return {
        value: 0,
        variance: ends + wfm * (1 / length + 1 / duration) + 2 * ffm * apart + rw * away,
      };
    });
    return (mixtureQuantile(mixture, 0.5 + 0.5 * share) * phaseUnit) / timeUnit;
  }

  /** Coefficient of the rate on temperature; 1/K. Only of a record that has temperatures. */
  temperature(): Held {
    const { phaseUnit, timeUnit } = this.scaled;
    const mixture = this.mixture(({ node }) => {
      const { coefficients, inverse } = node.fit;
      const p = coefficients.length;
      return { value: coefficients[1] ?? 0, variance: inverse[p + 1] ?? 0 };
    });
    return heldBy(mixture, (x) => (x * phaseUnit) / timeUnit);
  }

  /**
   * Uncertainty of another linear estimate of the slope, under the same levels.
   *
   * @param weights - weight of each event's phase, counted from the start of its stretch; per time unit
   * @returns rms error and 95 % half-width about either rate, and the deviation from run to run; dimensionless
   */
  ofEstimator(weights: Float64Array): EstimatorUncertainty {
    const { events, phaseUnit, timeUnit } = this.scaled;
    const unit = phaseUnit / timeUnit;
    const best = this.heaviest(24);
    const errors = best.map(({ node }) => {
      let variance = estimatorVariance(events, node.levels, this.times, weights);
      const sigma = node.fit.squares / node.fit.degrees;
      // A fitted temperature coefficient is one more error of the estimate.
      const warm = events.regressors[1]?.values;
      const lever = warm?.reduce((sum, w, k) => sum + w * weights[k]!, 0) ?? 0;
      const p = node.fit.coefficients.length;
      const warmth = lever * lever * (node.fit.inverse[p + 1] ?? 0);
      variance = { steady: variance.steady + warmth, overRun: variance.overRun + warmth };
      const steady = variance.steady + this.slower * node.levels.ffm;
      const next = 2 * (variance.overRun + sourceVariance(node.levels, events.duration));
      return { overRun: sigma * variance.overRun, steady: sigma * steady, next: sigma * next };
    });
    const weight = Float64Array.from(best, (one) => one.weight);
    const total = weight.reduce((a, b) => a + b, 0);
    const about = (key: "overRun" | "steady") => {
      const scale = Float64Array.from(errors, (error) => Math.sqrt(error[key]));
      const { degrees } = best[0]!.node.fit;
      const mixture = { weight, centre: new Float64Array(scale.length), scale, degrees };
      let square = 0;
      errors.forEach((error, i) => {
        square += (weight[i]! / total) * error[key];
      });
      return { rms: unit * Math.sqrt(square), half: unit * mixtureQuantile(mixture, 0.975) };
    };
    const next = errors.map((error) => Math.sqrt(error.next));
    return {
      overRun: about("overRun"),
      steady: about("steady"),
      nextRun: unit * weightedQuantile(next, weight, 0.5),
    };
  }

  /** What the time error will gain over so many seconds after the last edge; s. */
  ahead(seconds: number): Held {
    const { slope, phaseUnit, timeUnit, events } = this.scaled;
    const cache = new Map<GridNode, Estimate>();
    const mixture = this.mixture(({ node, steady }) => {
      const h = seconds / timeUnit;
      const known = cache.get(node) ?? forecast(node, this.times, h, events.duration);
      cache.set(node, known);
      return {
        value: known.value + h * steady.shift,
        variance: known.variance + h * h * steady.variance,
      };
    });
    return heldBy(mixture, (x) => slope * seconds + x * phaseUnit);
  }

  /** Median and 95 % interval of a noise level. */
  level(kind: keyof DeviationLevels): Held {
    const { estimate, low, high } = levelLaw(this.nodes, this.weight, kind, this.scaled).held();
    const scale = this.edgeShare(kind);
    return { estimate: scale * estimate, low: scale * low, high: scale * high };
  }

  /** How likely a noise level is to lie as far off its median as this one: twice the smaller tail. */
  levelBeyond(kind: keyof DeviationLevels, level: number): number {
    const law = levelLaw(this.nodes, this.weight, kind, this.scaled);
    return law.beyond(level / this.edgeShare(kind));
  }

  /** Of groups of readings each for itself the scatter, and its leverage, go back to that of an edge. */
  private edgeShare(kind: keyof DeviationLevels): number {
    const { block, apart, edgeScale } = this.scaled;
    return kind === "whitePm" && apart && block > 1 ? Math.sqrt(1 / (edgeScale * block)) : 1;
  }

  /** Standard deviation of the next run's best fit about this one's, posterior median; dimensionless. */
  nextRun(): number {
    const { phaseUnit, timeUnit, events } = this.scaled;
    const of = this.nodes.map((node) => {
      const variance =
        2 * (node.fit.overRun.variance + sourceVariance(node.levels, events.duration));
      return Math.sqrt((variance * node.fit.squares) / node.fit.degrees);
    });
    return (weightedQuantile(of, this.weight, 0.5) * phaseUnit) / timeUnit;
  }

  /**
   * Readings that a run would have to have in all for a half-width at 95 % of one of the two rates.
   *
   * As long as no floor and no white FM show, what is not known of them keeps the interval as much wider than the ideal
   * as it is today, at any length; a floor that shows sets an end.
   *
   * @param within - half-width wanted, as a slope; dimensionless, > 0
   * @param of - which rate
   * @returns readings in all, at the posterior's median; Infinity where no run would do
   */
  readingsFor(within: number, of: "steady" | "overRun"): number {
    const { phaseUnit, timeUnit, events, apart, block } = this.scaled;
    const now = of === "steady" ? this.steady() : this.overRun();
    const half = 0.5 * (now.high - now.low);
    const readings = Math.max(2, Math.round(this.readings()));
    if (half <= within) return readings;
    const gap = apart ? Math.max(0, events.duration / readings - 1) : 0;
    const goal = (within * timeUnit) / phaseUnit;
    const known = this.heaviest(12);
    const needed = known.map(({ node }) => {
      const sigma = Math.sqrt(node.fit.squares / node.fit.degrees);
      const edge =
        apart && block > 1 ? node.levels.pm / (this.scaled.edgeScale * block) : node.levels.pm;
      const levels = { ...node.levels, pm: edge };
      const plain = this.whiteFmShows() ? levels : { ...levels, wfm: 0 };
      const sure = this.floorShows() ? plain : { ...plain, ffm: 0, rw: 0 };
      const deviation = (K: number) => {
        const found: RunVariances = runVariances(K, sure, gap);
        return sigma * Math.sqrt(found[of]);
      };
      const today = deviation(readings);
      // What is not known of the levels widens the interval by the same factor then as now.
      const factor = (half * timeUnit) / phaseUnit / today;
      let low = readings;
      let high = readings;
      for (let i = 0; factor * deviation(high) > goal; i++) {
        if (i === 24) return Infinity;
        low = high;
        high *= 2;
      }
      for (let i = 0; i < 6; i++) {
        const middle = Math.round(Math.sqrt(low * high));
        if (factor * deviation(middle) > goal) low = middle;
        else high = middle;
      }
      return high;
    });
    return weightedQuantile(
      needed,
      Float64Array.from(known, (one) => one.weight),
      0.5,
    );
  }

  /** Whether the record shows a floor or a walk: the lowest of the grid have hardly any weight then. */
  floorShows(): boolean {
    let low = 0;
    this.nodes.forEach((node, i) => {
      if (node.levels.ffm < 0.2 * node.reference) low += this.weight[i]!;
    });
    return low < 0.05;
  }

  /** Whether the record shows white FM: the highest ratios of white PM to it have hardly any weight then. */
  whiteFmShows(): boolean {
    let none = 0;
    this.nodes.forEach((node, i) => {
      if (node.hidden.whiteFm) none += this.weight[i]!;
    });
    return !this.scaled.apart && none < 0.02;
  }

  /** Readings in the record. */
  readings(): number {
    return this.scaled.reading.at(-1)! + 1;
  }

  private heaviest(most: number): { node: GridNode; weight: number }[] {
    return this.nodes
      .map((node, i) => ({ node, weight: this.weight[i]! }))
      .sort((a, b) => b.weight - a.weight)
      .slice(0, most);
  }

  private slopeHeld(of: (possibility: Possibility) => Estimate, share?: number): Held {
    const { slope, phaseUnit, timeUnit } = this.scaled;
    return heldBy(this.mixture(of), (x) => slope + (x * phaseUnit) / timeUnit, share);
  }

  private mixture(of: (possibility: Possibility) => Estimate): StudentMixture {
    const { possibilities } = this;
    const size = possibilities.length;
    const mixture = {
      weight: new Float64Array(size),
      centre: new Float64Array(size),
      scale: new Float64Array(size),
      degrees: this.nodes[0]!.fit.degrees,
    };
    possibilities.forEach((possibility, i) => {
      const { value, variance } = of(possibility);
      mixture.weight[i] = possibility.weight;
      mixture.centre[i] = value;
      mixture.scale[i] = Math.sqrt((variance * possibility.squares) / mixture.degrees);
    });
    return mixture;
  }
}

/** Value below which a share of the weight lies. */
export function weightedQuantile(
  values: readonly number[],
  weight: Float64Array,
  share: number,
): number {
  const order = Array.from(values.keys()).sort((a, b) => values[a]! - values[b]!);
  let total = 0;
  for (const w of weight) total += w;
  let sum = 0;
  for (const i of order) {
    sum += weight[i]!;
    if (sum >= share * total) return values[i]!;
  }
  return values[order.at(-1)!]!;
}
