import { highPart, Instant } from "../numeric/index.ts";
import type { EdgeRow } from "./edge-row.ts";

/** Parts of itself by which a number of cycles may be wrong; a few times what rounding makes. */
const unsure = 1e-15;

/** Moments beyond this have no whole second of their own; s. */
const longest = 9007199254740992;

/**
 * The even grid on which a stage's edges would lie without noise: edge n at n periods after the start.
 *
 * The rate of the grid may be switched, as a divider is: the phase goes on, and only the part of a period
 * still to come is stretched. Moments are kept as exact products, so that the grid is even at any length.
 */
export class EdgeGrid {
  /** Period on the reference's own scale; s. */
  period: number;
  private truePeriod: number;
  private readonly stretch: number;
  /** The edge the present segment begins with, its moment in true and in nominal time. */
  private firstEdge = 0;
  private readonly base = new Instant();
  private nominalBase = 0;
  private readonly probe = new Instant();

  /**
   * @param period - nominal period; s, > 0
   * @param steadySlope - steady slope dx/du of the reference's time error: true = nominal·(1 − slope)
   */
  constructor(period: number, steadySlope: number) {
    this.stretch = 1 - steadySlope;
    this.period = period;
    this.truePeriod = period * this.stretch;
  }

  /** Sets `out` to the moment of edge n in true time. n lies in the present segment. */
  moment(n: number, out: Instant): void {
    const { base } = this;
    out.setCycle(n - this.firstEdge, this.truePeriod);
    if (this.firstEdge > 0) out.set(out.whole + base.whole, out.fraction + base.fraction);
  }

  /**
   * Moments of many edges of the present segment, each early by an error of its own.
   *
   * @param first - number of the first edge
   * @param stride - from each to the next; edges
   * @param row - gives `edges`, nominal times and errors; receives the moments
   */
  moments(first: number, stride: number, row: EdgeRow): void {
    const { base, firstEdge, truePeriod } = this;
    const { edges, variables, noiseErrors, wholes, fractions } = row;
    const isFirst = firstEdge === 0;
    const baseWhole = isFirst ? 0 : base.whole;
    const baseFraction = isFirst ? 0 : base.fraction;
    if (!(Math.abs(baseWhole + (first + stride * edges - firstEdge) * truePeriod) < longest)) {
      throw new RangeError(`EdgeGrid: moments must lie within ${longest} s`);
    }
    const highPeriod = highPart(truePeriod);
    const lowPeriod = truePeriod - highPeriod;
    for (let i = 0, n = first - firstEdge; i < edges; i++, n += stride) {
      const product = n * truePeriod;
      // What rounding took (`twoProductError`), with the period split once for all.
      const high = highPart(n);
      const low = n - high;
      const lost =
        low * lowPeriod - (product - high * highPeriod - low * highPeriod - high * lowPeriod);
      const whole = Math.floor(product);
      const shift = lost - variables[i]! - noiseErrors[i]!;
      const fraction = product - whole + baseFraction + shift;
      const carry = Math.floor(fraction);
      const rest = fraction - carry;
      // A moment a rounding below a whole second is that second.
      wholes[i] = whole + baseWhole + carry + (rest < 1 ? 0 : 1);
      fractions[i] = rest < 1 ? rest : 0;
    }
  }

  /** Whether edge n and all after it are equally far apart. */
  isEvenFrom(n: number): boolean {
    return n >= this.firstEdge;
  }

  /** Nominal time of edge n; s. */
  nominal(n: number): number {
    return this.nominalBase + (n - this.firstEdge) * this.period;
  }

  /**
   * Nominal time from one edge to another: the same double for every pair equally far apart.
   *
   * @param from - the earlier edge, perhaps of a segment before
   * @param fromNominal - its nominal time; s
   * @param to - the later edge, of the present segment
   */
  lapse(from: number, fromNominal: number, to: number): number {
    return from >= this.firstEdge ? (to - from) * this.period : this.nominal(to) - fromNominal;
  }

  /** The first edge at or after a moment of true time (Infinity for never). */
  firstFrom(at: Instant): number {
    const cycles = at.minus(this.base) / this.truePeriod;
    const up = Math.ceil(cycles);
    const n = this.firstEdge + up;
    if (!(n < Number.MAX_SAFE_INTEGER)) return Number.POSITIVE_INFINITY;
    const rounding = unsure * (1 + Math.abs(cycles));
    if (up - cycles > rounding && cycles - (up - 1) > rounding) return n;
    // So near an edge that rounding might decide, the edge itself does.
    this.moment(n, this.probe);
    if (this.probe.isBefore(at)) return n + 1;
    this.moment(n - 1, this.probe);
    return this.probe.isBefore(at) ? n : n - 1;
  }

  /**
   * Switches to another period; the phase goes on.
   *
   * @param at - true time; s
   * @param next - the edge that comes next; jitter apart, the first one after `at`
   * @param period - the new nominal period; s, > 0
   */
  switchPeriod(at: Instant, next: number, period: number): void {
    this.moment(next, this.probe);
    const share = this.probe.minus(at) / this.truePeriod;
    this.nominalBase = this.nominal(next) + share * (period - this.period);
    this.firstEdge = next;
    this.period = period;
    this.truePeriod = period * this.stretch;
    this.base.copy(at);
    this.base.add(share * this.truePeriod);
  }
}
