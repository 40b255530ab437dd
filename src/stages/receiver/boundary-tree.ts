import { cosTurns } from "../../numeric/index.ts";
import type { RectifiedTone } from "./rectified-tone.ts";

/** Numbers kept for each node: a line's growth and response part, each intercept and slope, and the middle. */
export const nodeSize = 5;

/**
 * The threshold as the noise sees it, cut into halves again and again.
 *
 * In y = E·u − A·R the noise is Brownian on the clock w, and the threshold θ becomes the boundary
 * B(w) = θ·E − A·R. The tree covers a power of two of periods of the rectified tone, with a power of two
 * of cells in each; in a cell B is taken as straight. Each node holds the straight line
 *
 *   ℓ(w) = θ·(e₀ + e₁·w) − A·(r₀ + r₁·w) ≤ B(w) everywhere on the node
 *
 * (the chord, lowered by A times the largest excess of R over its chord; E is concave in w, so its part
 * of the chord is below it anyway). In a cell the line is B itself.
 *
 * Knots of R are moved by a twelfth of its second difference, so that the straight pieces err from the
 * curve by nothing in the mean of a cell (∫(chord − f) = h²f''/12 + O(h⁴)); kinks keep their place.
 */
export class BoundaryTree {
  /** Levels above the cells; the root is level 0. */
  readonly levels: number;
  /** Periods covered by the root; a power of two. */
  readonly periods: number;
  /** Cells in a period; a power of two. */
  readonly cells: number;
  /** Heap order: node n has the children 2n and 2n + 1; the root is 1; nodeSize numbers each. */
  readonly nodes: Float64Array;
  /** For each node, how far R departs from the line at most; V/V. */
  readonly departure: Float64Array;
  private readonly spans: Float64Array;
  /** The node that begins at the root's start and covers 2^j periods is 2^(periodLevels − j). */
  readonly periodLevels: number;
  /** E, R and w at the end of the first 1, 2, 4, … periods; and the sum by which the line there lies low. */
  readonly growthAt: Float64Array;
  readonly responseAt: Float64Array;
  readonly clockAt: Float64Array;

  /**
   * @param tone - the rectified tone
   * @param periodLevels - the root covers 2^periodLevels periods; integer >= 0
   * @param cellLevels - a period has 2^cellLevels cells; integer >= 2
   */
  constructor(tone: RectifiedTone, periodLevels: number, cellLevels: number) {
    this.periodLevels = periodLevels;
    this.levels = periodLevels + cellLevels;
    const cells = 1 << cellLevels;
    this.periods = 1 << periodLevels;
    this.cells = cells;
    const knots = this.periods * cells;
    const growth = new Float64Array(knots + 1);
    const response = new Float64Array(knots + 1);
    const clock = new Float64Array(knots + 1);
    fillKnots(tone, cells, growth, response, clock);
    this.growthAt = new Float64Array(periodLevels + 1);
    this.responseAt = new Float64Array(periodLevels + 1);
    this.clockAt = new Float64Array(periodLevels + 1);
    for (let j = 0, knot = cells; j <= periodLevels; j++, knot *= 2) {
      this.growthAt[j] = growth[knot]!;
      this.responseAt[j] = response[knot]!;
      this.clockAt[j] = clock[knot]!;
    }
    this.nodes = new Float64Array(2 * knots * nodeSize);
    this.departure = new Float64Array(2 * knots);
    this.spans = new Float64Array(2 * knots);
    for (let node = 1, width = knots; width >= 1; width /= 2) {
      for (let from = 0; from < knots; from += width, node++) {
        this.fillNode(node, from, width, growth, response, clock);
      }
    }
  }

  /**
   * Length of a node on the clock.
   *
   * @param node - index of the node
   * @returns Δw; dimensionless
   */
  span(node: number): number {
    return this.spans[node]!;
  }

  /** The line of one node, which covers the cells from, …, from + width − 1. */
  private fillNode(
    node: number,
    from: number,
    width: number,
    growth: Float64Array,
    response: Float64Array,
    clock: Float64Array,
  ): void {
    const to = from + width;
    const start = clock[from]!;
    const span = clock[to]! - start;
    const growthSlope = (growth[to]! - growth[from]!) / span;
    const responseSlope = (response[to]! - response[from]!) / span;
    let excess = 0;
    let shortfall = 0;
    for (let k = from + 1; k < to; k++) {
      const above = response[k]! - response[from]! - responseSlope * (clock[k]! - start);
      excess = Math.max(excess, above);
      shortfall = Math.max(shortfall, -above);
    }
    this.spans[node] = span;
    this.departure[node] = excess + shortfall;
    const at = node * nodeSize;
    this.nodes[at] = growth[from]! - growthSlope * start;
    this.nodes[at + 1] = growthSlope;
    this.nodes[at + 2] = response[from]! + excess - responseSlope * start;
    this.nodes[at + 3] = responseSlope;
    this.nodes[at + 4] = width > 1 ? clock[from + width / 2]! : Infinity;
  }
}

/** E, R and w at the knots of the tree. */
function fillKnots(
  tone: RectifiedTone,
  cells: number,
  growth: Float64Array,
  response: Float64Array,
  clock: Float64Array,
): void {
  for (let k = 0; k < growth.length; k++) {
    const period = Math.floor(k / cells);
    const x = k / cells - period;
    const within = tone.growth(x);
    const before = tone.growth(period);
    const sofar = tone.settled * (before - 1);
    growth[k] = before * within;
    clock[k] = growth[k]! * growth[k]! - 1;
    const r = tone.response(x, within) + bend(tone, x, 1 / cells, within);
    response[k] = sofar + before * r;
  }
}

/** −(Δw²/12)·d²R/dw² at a knot of the first period; 0 at a kink. */
function bend(tone: RectifiedTone, x: number, step: number, growth: number): number {
  if (x === 0 || (tone.periodsPerCycle === 1 && x >= 0.5)) return 0;
  // τ·dr/dt, and R'' = (τ·r' − r)/(4E³) on the clock, Δw = 2E²·Δt/τ.
  const slope =
    (2 * Math.PI * tone.turnsPerPeriod * cosTurns(x * tone.turnsPerPeriod)) / tone.ratio;
  const dw = 2 * growth * growth * step * tone.ratio;
  const curvature = (slope - tone.drive(x)) / (4 * growth * growth * growth);
  return (-dw * dw * curvature) / 12;
}
