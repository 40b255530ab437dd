import { exp, log } from "../numeric/index.ts";
import { ladder } from "./ladder.ts";
import { leastSquares } from "./least-squares.ts";
import type { LeastSquares } from "./least-squares-pass.ts";
import type { Levels } from "./levels.ts";
import { boundStretch, type DeviationLevels, type Known, logWeight, toLevels } from "./prior.ts";
import type { ScaledEvents } from "./to-events.ts";

/** A set of levels with what the record says under it. */
export interface GridNode {
  readonly levels: Levels;
  readonly fit: LeastSquares;
  /** ln of its posterior weight, up to a constant. */
  readonly logPosterior: number;
  /** Variance of the steady rate over σ² with no floor and no random walk; (phase/time)². */
  readonly reference: number;
  /** Which levels are at the grid's lower end, where they cannot be told from nothing. */
  readonly hidden: Readonly<Record<keyof DeviationLevels, boolean>>;
}

/** The nodes with weight, and the flicker ladder that they share. */
export interface LevelGrid {
  readonly nodes: readonly GridNode[];
  /** Time units. */
  readonly times: Float64Array;
}

/** Place on the grid: white PM over white FM, floor, random walk (null: none). */
type Place = readonly [ratio: number, floor: number, walk: number | null];

/** Steps of the grid in decades of variance. */
const ratioStep = 0.4;
const floorStep = 0.5;
/** Lowest floor, in steps: 10^−1.5 of the steady rate's variance without one. */
const lowestFloor = -3;
/** Ends of the ratio of white PM to white FM: 10^−2 to 10^2.4 times the edges, in steps. */
const lowestRatio = -5;
const highestRatio = 2.4;
/** ln of the odds of no random walk against one of its levels: 9 to 1 over four of them. */
const noWalk = log(36);
/** Points of a stated floor, uniform in deviation up to one and a half times its bound. */
const boundPoints = 6;
/** Nodes this far below the best in ln posterior get neighbours, or are dropped. */
const worthNeighbours = 5;
const worthKeeping = 7;

/**
 * Posterior over noise levels, on a grid that is fine where the weight is. σ² and all coefficients are integrated out.
 *
 * White PM over white FM: flat in the logarithm; floor: flat in the logarithm from where it cannot be seen to three
 * times the scatter of a reading, or uniform in deviation up to a stated bound; random walk: none with a prior
 * probability of about 90 %. Stretches without shared edges leave white PM and white FM alike: all is white PM then.
 *
 * @param scaled - the record
 * @param known - what is known of the source
 * @returns the nodes that have weight
 *
 * Source: likelihood of levels: Tryon & Jones, J. Res. NBS 88, 3 (1983); grid and priors: own derivation, tested by
 * coverage.
 */
export function levelGrid(scaled: ScaledEvents, known: Known = {}): LevelGrid {
  const { events, block, apart } = scaled;
  const edges = events.step.length;
  const { duration } = events;
  const times = ladder(block === 1 || apart ? 1 : block / 3, duration);
  const m = apart ? 1 : block;
  const bounds = inUnits(known, scaled);
  const references = new Map<number, LeastSquares>();
  const nodes = new Map<string, GridNode>();
  const top = Math.floor((highestRatio + log(edges) / Math.LN10) / ratioStep);
  const bottom = bounds.expected === undefined ? lowestRatio : -40;
  const white = (ratio: number): Levels => ({
    pm: m,
    wfm: apart ? 0 : exp(-ratioStep * ratio * Math.LN10) / m,
    ffm: 0,
    rw: 0,
  });
  const levelsAt = ([ratio, floor, walk]: Place): Levels | null => {
    if (apart ? ratio !== 0 : ratio < bottom || ratio > top) return null;
    let reference = references.get(ratio);
    if (reference === undefined) {
      reference = leastSquares(events, white(ratio), times);
      references.set(ratio, reference);
    }
    const { pm, wfm } = white(ratio);
    const slope = reference.steady.variance;
    const lowest = slope * exp(lowestFloor * floorStep * Math.LN10);
    let ffm = lowest;
    if (bounds.floor !== undefined) {
      if (floor < 0 || floor >= boundPoints) return null;
      const part = (boundStretch * (floor + 0.5)) / boundPoints;
      const variance = reference.squares / reference.degrees;
      ffm = (part * part * bounds.floor) / Math.max(variance, 1e-300);
    } else {
      if (floor < lowestFloor) return null;
      ffm = slope * exp(floor * floorStep * Math.LN10);
      if (ffm > (3 * (2 * (pm / m) + wfm * m)) / (m * m) && floor > lowestFloor) return null;
    }
    const rw = walk === null ? 0 : (slope * exp(walk * Math.LN10)) / duration;
    return { pm, wfm, ffm, rw };
  };
  const add = (place: Place) => {
    const key = place.join();
    if (nodes.has(key)) return;
    const levels = levelsAt(place);
    if (levels === null) return;
    const fit = leastSquares(events, levels, times);
    const reference = references.get(place[0])!.steady.variance;
    const visible = {
      wfm: white(top).wfm,
      ffm: reference * exp(lowestFloor * floorStep * Math.LN10),
      rw: reference / duration,
    };
    const logPosterior =
      fit.logLikelihood +
      (place[2] === null ? noWalk : 0) +
      logWeight(levels, visible, fit, bounds);
    const hidden = {
      whitePm: place[0] <= bottom,
      whiteFm: place[0] >= top,
      flickerFm: place[1] <= (bounds.floor === undefined ? lowestFloor + 1 : 0),
      randomWalkFm: false,
    };
    nodes.set(key, { levels, fit, logPosterior, reference, hidden });
  };
  const floors = bounds.floor === undefined ? [] : Array.from({ length: boundPoints }, (_, i) => i);
  if (floors.length === 0) for (let f = lowestFloor; f < 30; f += 3) floors.push(f);
  for (let ratio = apart ? 0 : lowestRatio; ratio <= top; ratio += 2) {
    for (const floor of floors) for (const walk of [null, 2]) add([ratio, floor, walk]);
    if (apart) break;
  }
  // A tight bound, or what is expected, may leave but the least white FM.
  if (!apart && (bounds.wfm !== undefined || bounds.expected !== undefined)) {
    for (const floor of floors) for (const walk of [null, 2]) add([top, floor, walk]);
  }
  for (let stage = 0; stage < 3; stage++) refine(nodes, add);
  const best = bestOf(nodes);
  return {
    nodes: [...nodes.values()].filter((node) => node.logPosterior > best - worthKeeping),
    times,
  };
}

/** Adds the neighbours of every node with weight. */
function refine(nodes: Map<string, GridNode>, add: (place: Place) => void): void {
  const best = bestOf(nodes);
  const heavy = [...nodes].filter(([, node]) => node.logPosterior > best - worthNeighbours);
  for (const [key] of heavy) {
    const [ratio, floor, walk] = placeOf(key);
    for (const a of [-1, 0, 1]) for (const b of [-1, 0, 1]) add([ratio + a, floor + b, walk]);
    if (walk !== null) for (const c of [-1, 1]) if (walk + c > 0) add([ratio, floor, walk + c]);
  }
}

function placeOf(key: string): Place {
  const [ratio, floor, walk] = key.split(",");
  return [Number(ratio), Number(floor), walk === "" ? null : Number(walk)];
}

function bestOf(nodes: Map<string, GridNode>): number {
  let best = -Infinity;
  for (const { logPosterior } of nodes.values()) best = Math.max(best, logPosterior);
  return best;
}

/** What is known, as variances in the record's units. */
function inUnits(known: Known, scaled: ScaledEvents) {
  const of = (part: Partial<Record<"whiteFm" | "flickerFm", number>>) =>
    toLevels({ whitePm: 0, whiteFm: 0, flickerFm: 0, randomWalkFm: 0, ...part }, scaled);
  return {
    ...(known.floor === undefined ? {} : { floor: of({ flickerFm: known.floor }).ffm }),
    ...(known.whiteFm === undefined ? {} : { wfm: of({ whiteFm: known.whiteFm }).wfm }),
    ...(known.expected === undefined ? {} : { expected: toLevels(known.expected, scaled) }),
  };
}
