import { type BoundaryTree, nodeSize } from "./boundary-tree.ts";
import type { Deviates } from "./deviates.ts";
import { firstTouch, staysApart } from "./first-touch.ts";

/** How many times the departure of a node's line the noise may span on the node looked at after a touch. */
const closeness = 1;

/** Where in `piece` things stand: the piece of path searched, and the crossing found. */
export const amplitudeAt = 0;
export const fromClock = 1;
export const fromValue = 2;
export const toClock = 3;
export const toValue = 4;

/**
 * First crossing of the boundary of a tree by a Brownian bridge, drawn from its exact law.
 *
 * A piece of path with both ends known is held against the line of its node, which lies on or below the
 * boundary. It stays below that line with probability 1 − exp(−2·d₀·d₁/Δs); then there is no crossing.
 * Else the moment of the first touch is drawn, the path starts afresh from there (strong Markov) and a
 * smaller node that holds it is looked at, with a new value drawn at its end where the path's end is
 * beyond. In a cell, where the line is the boundary, a touch is the crossing.
 *
 * Source: reflection principle and strong Markov property; the touch by `firstTouch`.
 */
export class BridgeCrossing {
  /**
   * Arguments and result of `find`, here rather than passed, so that no call allocates: amplitude A (V);
   * clock w from the root's start and y = E·u − A·R (V) of the piece's start, which is below the boundary,
   * and of its end, on either side. A crossing found is left in the start's place.
   */
  readonly piece = new Float64Array(5);
  private readonly nodes: Float64Array;
  /** For each node, how many levels lower to go after a touch. */
  private readonly descent: Uint8Array;
  private readonly firstCell: number;
  private readonly threshold: number;
  /** noise_v², so that variance is this times the clock; V². */
  private readonly power: number;
  private readonly deviates: Deviates;
  /** Ends still ahead, and a node that holds each one's following piece. */
  private readonly endClock: Float64Array;
  private readonly endValue: Float64Array;
  private readonly nextNode: Int32Array;

  /**
   * @param tree - the boundary
   * @param threshold - θ; V
   * @param noise - rms of the noise; V, > 0
   * @param amplitude - usual amplitude of the tone, for speed only; V
   * @param deviates - deviates
   */
  constructor(
    tree: BoundaryTree,
    threshold: number,
    noise: number,
    amplitude: number,
    deviates: Deviates,
  ) {
    this.nodes = tree.nodes;
    this.firstCell = tree.periods * tree.cells;
    this.threshold = threshold;
    this.power = noise * noise;
    this.deviates = deviates;
    this.endClock = new Float64Array(tree.levels + 2);
    this.endValue = new Float64Array(tree.levels + 2);
    this.nextNode = new Int32Array(tree.levels + 2);
    this.descent = new Uint8Array(2 * this.firstCell);
    for (let node = 1; node < this.firstCell; node++) {
      const near = closeness * amplitude * tree.departure[node]!;
      let levels = 1;
      let below = 2 * node;
      while (below < this.firstCell && this.power * tree.span(below) > near * near) {
        below *= 2;
        levels++;
      }
      this.descent[node] = levels;
    }
  }

  /**
   * The first crossing on the piece of path in `piece`.
   *
   * @param node - a node of the tree that covers the piece
   * @returns whether there is a crossing; its clock and y are then in `piece`
   */
  find(node: number): boolean {
    const nodes = this.nodes;
    const firstCell = this.firstCell;
    const theta = this.threshold;
    const power = this.power;
    const deviates = this.deviates;
    const piece = this.piece;
    const amplitude = piece[amplitudeAt]!;
    let depth = 0;
    let n = node;
    let w = piece[fromClock]!;
    let y = piece[fromValue]!;
    let end = piece[toClock]!;
    let endY = piece[toValue]!;
    for (;;) {
      const at = n * nodeSize;
      const slope = theta * nodes[at + 1]! - amplitude * nodes[at + 3]!;
      const low = theta * nodes[at]! - amplitude * nodes[at + 2]!;
      const d0 = low + slope * w - y;
      if (d0 > 0) {
        const d1 = low + slope * end - endY;
        const s = power * (end - w);
        if (d1 > 0 && staysApart(2 * d0 * d1, s, deviates)) {
          if (depth === 0) return false;
          n = this.nextNode[--depth]!;
          w = end;
          y = endY;
          end = this.endClock[depth]!;
          endY = this.endValue[depth]!;
          continue;
        }
        w += (end - w) * firstTouch(d0, d1, s, deviates);
        y = low + slope * w;
      }
      if (n >= firstCell) {
        piece[fromClock] = w;
        piece[fromValue] = y;
        return true;
      }
      const holder = n;
      let nodeEnd = end;
      for (let levels = this.descent[n]!; levels > 0; levels--) {
        const middle = nodes[n * nodeSize + 4]!;
        n *= 2;
        if (w >= middle) n++;
        else nodeEnd = Math.min(nodeEnd, middle);
      }
      if (nodeEnd < end) {
        const part = (nodeEnd - w) / (end - w);
        this.endClock[depth] = end;
        this.endValue[depth] = endY;
        this.nextNode[depth++] = holder;
        const deviation = Math.sqrt(power * part * (end - nodeEnd));
        endY = y + (endY - y) * part + deviation * deviates.normal();
        end = nodeEnd;
      }
    }
  }
}
