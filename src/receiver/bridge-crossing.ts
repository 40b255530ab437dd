import { exp } from "../numeric/portable-exp.ts";
import type { RandomStream } from "../numeric/random-stream.ts";
import { type BoundaryTree, nodeSize } from "./boundary-tree.ts";
import { touchingFraction } from "./touching-fraction.ts";

/** A touch less likely than e^−40 = 4e-18 is taken as none. */
const surelyApart = 40;

/**
 * First crossing of the boundary of a tree by a Brownian bridge, drawn from its exact law.
 *
 * A piece of path with both ends known is held against the line of its node, which lies on or below the
 * boundary. It stays below that line with probability 1 − exp(−2·d₀·d₁/Δs); then there is no crossing.
 * Else the moment of the first touch is drawn, the path starts afresh from there (strong Markov), and the
 * half of the node that holds it is looked at, with a new value drawn at the middle where the middle is
 * still ahead. In a cell, where the line is the boundary, a touch is the crossing.
 */
export class BridgeCrossing {
  /** Value y of the path at the crossing last found; V. */
  value = 0;
  private readonly tree: BoundaryTree;
  private readonly threshold: number;
  /** noise_v², so that variance is this times the clock; V². */
  private readonly power: number;
  private readonly stream: RandomStream;
  /** Ends still ahead, and the node that each one's following piece belongs to. */
  private readonly endClock: Float64Array;
  private readonly endValue: Float64Array;
  private readonly nextNode: Int32Array;

  /**
   * @param tree - the boundary
   * @param threshold - θ; V
   * @param noise - rms of the noise; V, > 0
   * @param stream - deviates
   */
  constructor(tree: BoundaryTree, threshold: number, noise: number, stream: RandomStream) {
    this.tree = tree;
    this.threshold = threshold;
    this.power = noise * noise;
    this.stream = stream;
    this.endClock = new Float64Array(tree.levels + 2);
    this.endValue = new Float64Array(tree.levels + 2);
    this.nextNode = new Int32Array(tree.levels + 2);
  }

  /**
   * The first crossing on a piece of path.
   *
   * @param amplitude - A; V
   * @param node - a node of the tree that covers the piece
   * @param fromClock - clock w at the start, counted from the root's start
   * @param fromValue - y there, below the boundary; V
   * @param toClock - clock at the end
   * @param toValue - y there, on either side; V
   * @returns clock at the first crossing (its y in `value`), or −1 where there is none
   */
  find(
    amplitude: number,
    node: number,
    fromClock: number,
    fromValue: number,
    toClock: number,
    toValue: number,
  ): number {
    const nodes = this.tree.nodes;
    const firstCell = this.tree.periods * this.tree.cells;
    const theta = this.threshold;
    const power = this.power;
    const stream = this.stream;
    const endClock = this.endClock;
    const endValue = this.endValue;
    const nextNode = this.nextNode;
    let depth = 0;
    let n = node;
    let w = fromClock;
    let y = fromValue;
    let end = toClock;
    let endY = toValue;
    for (;;) {
      const at = n * nodeSize;
      const slope = theta * nodes[at + 1]! - amplitude * nodes[at + 3]!;
      const low = theta * nodes[at]! - amplitude * nodes[at + 2]!;
      const d0 = low + slope * w - y;
      if (d0 > 0) {
        const d1 = low + slope * end - endY;
        const s = power * (end - w);
        if (d1 > 0) {
          const x = (2 * d0 * d1) / s;
          if (!(x < surelyApart) || this.staysApart(x)) {
            if (depth === 0) return -1;
            n = nextNode[--depth]!;
            w = end;
            y = endY;
            end = endClock[depth]!;
            endY = endValue[depth]!;
            continue;
          }
        }
        w += (end - w) * touchingFraction(stream, d0, Math.abs(d1), s);
        y = low + slope * w;
      }
      if (n >= firstCell) {
        this.value = y;
        return w;
      }
      const middle = nodes[at + 4]!;
      n *= 2;
      if (w >= middle) {
        n++;
      } else if (end > middle) {
        const ahead = end - w;
        const part = (middle - w) / ahead;
        endClock[depth] = end;
        endValue[depth] = endY;
        nextNode[depth++] = n + 1;
        endY = y + (endY - y) * part + Math.sqrt(power * part * (end - middle)) * stream.normal();
        end = middle;
      }
    }
  }

  /** Whether a bridge with exponent x stays apart from the line: true with probability 1 − e⁻ˣ. */
  private staysApart(x: number): boolean {
    const u = this.stream.uniform();
    // Most cases are decided by 1 − x <= e⁻ˣ <= 1/(1 + x + x²/2).
    if (u * (1 + x + 0.5 * x * x) >= 1) return true;
    return u > 1 - x && u > exp(-x);
  }
}
