import { exp, log } from "../numeric/index.ts";
import type { GridNode } from "./level-grid.ts";
import { lookBack, type Shifts } from "./look-back.ts";
import type { ScaledEvents } from "./to-events.ts";

/** Kinds of fault that the model looks for. */
export type FaultKind = "step" | "stamp";

/** One way in which the record may have come about: a node of the grid with one fault, or with none. */
export interface Possibility {
  readonly node: GridNode;
  /** Weight, in any scale. */
  readonly weight: number;
  /** Weighted sum of squares with the fault in it; over σ². */
  readonly squares: number;
  /** What the fault takes from each rate, and the variance over σ² that it adds to each. */
  readonly steady: { readonly shift: number; readonly variance: number };
  readonly overRun: { readonly shift: number; readonly variance: number };
}

/** A fault that may be there. */
export interface PossibleFault {
  readonly kind: FaultKind;
  /** Event at which it is. */
  readonly event: number;
  /** Probability of a fault of this kind here or at the events next to it. */
  readonly probability: number;
  /** Its size; phase units. */
  readonly size: number;
  /** Standard deviation of the size; phase units. */
  readonly deviation: number;
}

/** What a scan finds: everything that may be there averaged in, and the faults by probability. */
export interface FaultScan {
  readonly possibilities: readonly Possibility[];
  /** Probability that there is a fault at all. */
  readonly probability: number;
  /** The likeliest fault, and others that are as sure by themselves. */
  readonly faults: readonly PossibleFault[];
}

/** Prior probability of a fault of each kind, spread over all places. */
const prior = 0.5;
/** Standard deviations of its size, equally likely: a step that shows, and one that hides; deviations of a reading. */
const sizesInReadings = [1.5, 0.3];
/** Nodes with most weight, and how many of them, evenly through their order, are looked at. */
const mostNodes = 40;
const mostLooked = 14;
/** Possibilities below this part of the heaviest are left out. */
const negligible = 3e-4;
/** ln of the odds above which a second fault counts by itself: 0.99 to 0.01. */
const sureOdds = log(99);

/**
 * Looks for a step of the phase or an outlying stamp at every event, averaged over the levels.
 *
 * A fault has a prior probability of a half, spread evenly over the places, and a Gaussian size of one and a half or
 * of a third of the deviations of a reading. What may be there is averaged in, never decided.
 *
 * @param scaled - the record
 * @param nodes - posterior over levels
 * @param weight - weight of each node
 * @param times - flicker ladder
 * @returns possibilities and faults
 *
 * Source: own derivation from Gaussian conjugacy; statistics: lookBack.
 */
export function faultScan(
  scaled: ScaledEvents,
  nodes: readonly GridNode[],
  weight: Float64Array,
  times: Float64Array,
): FaultScan {
  const { events } = scaled;
  const size = events.step.length;
  const order = Array.from(nodes.keys()).sort((a, b) => weight[b]! - weight[a]!);
  const best = weight[order[0]!]!;
  const heavy = order.slice(0, mostNodes).filter((i) => weight[i]! > 0.01 * best);
  const stride = Math.ceil(heavy.length / mostLooked);
  const looked = new Set(heavy.filter((_, rank) => rank % stride === 0));
  const weightOf = (some: Iterable<number>) =>
    Array.from(some, (i) => weight[i]!).reduce((a, b) => a + b, 0);
  // Each stands for its neighbours in that order.
  const represents = weightOf(heavy) / weightOf(looked);
  let places = 0;
  for (let k = 1; k < size; k++) if (events.starts[k] === 0 && events.unseen[k] === 0) places++;
  const share = prior / sizesInReadings.length / Math.max(1, places);
  const found: (Possibility & { kind: FaultKind | null; event: number })[] = [];
  const moments = {
    step: {
      weight: new Float64Array(size),
      size: new Float64Array(size),
      square: new Float64Array(size),
    },
    stamp: {
      weight: new Float64Array(size),
      size: new Float64Array(size),
      square: new Float64Array(size),
    },
  };
  let clean = 0;
  // Nodes that are not looked at stand as they are, their share of faults being that of the others.
  for (const i of order) {
    const node = nodes[i]!;
    const none = { shift: 0, variance: 0 };
    const { squares, degrees } = node.fit;
    const own = weight[i]!;
    found.push({ node, weight: own, squares, steady: none, overRun: none, kind: null, event: -1 });
    if (!looked.has(i)) continue;
    clean += own * represents;
    const { levels } = node;
    const ownShare = own * represents * share;
    const reading = 2 * levels.pm + levels.wfm;
    const seen = lookBack(events, levels, times);
    const take = (
      kind: FaultKind,
      { size, information, onSteady, onRun }: Shifts,
      spread: number,
    ) => {
      const { weight: sum, size: first, square } = moments[kind];
      for (let k = 1; k < size.length; k++) {
        const known = information[k]!;
        if (known === 0) continue;
        const shrink = (known * spread) / (1 + known * spread);
        const drop = shrink * known * size[k]! * size[k]!;
        const rest = squares - drop;
        const left = Math.max(rest, 1e-12 * squares) / squares;
        const part = (ownShare * exp(-0.5 * degrees * log(left))) / Math.sqrt(1 + known * spread);
        const estimate = shrink * size[k]!;
        const variance = shrink / known;
        sum[k] = sum[k]! + part;
        first[k] = first[k]! + part * estimate;
        square[k] = square[k]! + part * (estimate * estimate + (variance * rest) / degrees);
        if (part < negligible * represents * best) continue;
        found.push({
          node,
          weight: part,
          squares: rest,
          steady: {
            shift: -onSteady[k]! * estimate,
            variance: onSteady[k]! * onSteady[k]! * variance,
          },
          overRun: { shift: -onRun[k]! * estimate, variance: onRun[k]! * onRun[k]! * variance },
          kind,
          event: k,
        });
      }
    };
    for (const deviations of sizesInReadings) {
      const spread = deviations * deviations * reading;
      take("step", seen.steps, spread);
      if (!scaled.apart) take("stamp", seen.stamps, spread);
    }
  }
  const total = (kind: FaultKind) => moments[kind].weight.reduce((a, b) => a + b, 0);
  const all = clean + total("step") + total("stamp");
  const faults = sureFaults(moments, clean, all);
  const heaviest = found.reduce((most, { weight: w }) => Math.max(most, w), 0);
  const kept = found.filter((one) => one.weight > negligible * heaviest);
  return {
    possibilities: kept,
    probability: 1 - clean / all,
    faults,
  };
}

interface Moments {
  readonly weight: Float64Array;
  readonly size: Float64Array;
  readonly square: Float64Array;
}

/** The likeliest fault, and all others that by themselves are sure and not next to one that is already taken. */
function sureFaults(
  moments: Record<FaultKind, Moments>,
  clean: number,
  all: number,
): PossibleFault[] {
  const ranked: { kind: FaultKind; event: number; weight: number }[] = [];
  for (const kind of ["step", "stamp"] as const) {
    moments[kind].weight.forEach((w, event) => {
      if (w > 0) ranked.push({ kind, event, weight: w });
    });
  }
  ranked.sort((a, b) => b.weight - a.weight || a.event - b.event);
  const taken: PossibleFault[] = [];
  for (const { kind, event, weight } of ranked.slice(0, 50)) {
    if (taken.length > 0 && log(weight / clean) < sureOdds) break;
    if (taken.some((fault) => Math.abs(fault.event - event) <= 3)) continue;
    const { size, square, weight: own } = moments[kind];
    const near = (other: FaultKind) =>
      (moments[other].weight[event - 1] ?? 0) +
      moments[other].weight[event]! +
      (moments[other].weight[event + 1] ?? 0);
    const mean = size[event]! / own[event]!;
    taken.push({
      kind,
      event,
      probability: Math.min(1, (near("step") + near("stamp")) / all),
      size: mean,
      deviation: Math.sqrt(Math.max(0, square[event]! / own[event]! - mean * mean)),
    });
  }
  return taken;
}
