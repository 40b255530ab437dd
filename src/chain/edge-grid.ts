import { Instant } from "../numeric/instant.ts";

/** Parts of itself by which a number of cycles may be wrong; a few times what rounding makes. */
const unsure = 1e-15;

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
