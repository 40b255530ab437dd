import { Edge, mark } from "../kernel/edge.ts";
import type { Process } from "../kernel/simulator.ts";
import { Instant } from "../numeric/instant.ts";
import type { EdgeLine } from "./edge-line.ts";

/** Edges handed on before the simulator gets its turn again. */
const edgesAtOnce = 4096;

/**
 * Hands the edges of a reference or synthesizer on, every one or only those that can matter.
 */
export class LineProcess implements Process {
  readonly next = new Instant();
  /** True once the run has come to its end. */
  isStopped = false;
  /** Edges the watcher counts more (or fewer) than the line made. */
  private surplus = 0;
  private marks = 0;
  private at = 0;
  private readonly edge = new Edge();
  private readonly gridMoment = new Instant();
  private readonly line: EdgeLine;
  private readonly isLazy: boolean;
  private readonly wake: () => Instant;
  private readonly handOn: (count: number, edge: Edge) => void;

  /**
   * @param line - the edges
   * @param isLazy - whether edges nobody looks at are passed over
   * @param wake - moment before which nobody looks
   * @param handOn - takes the count of the edge and the edge
   */
  constructor(
    line: EdgeLine,
    isLazy: boolean,
    wake: () => Instant,
    handOn: (count: number, edge: Edge) => void,
  ) {
    this.line = line;
    this.isLazy = isLazy;
    this.wake = wake;
    this.handOn = handOn;
    this.settleNext();
  }

  /** Edges up to now, looked at or not. */
  get count(): number {
    return this.at + this.surplus;
  }

  /** One edge more (+1) or fewer (−1) than the line makes. */
  displace(edges: number): void {
    this.surplus += edges;
    this.marks |= mark.slip;
  }

  /** Passes over edges that lie before a change. */
  passTo(edge: number): void {
    if (edge > this.at) this.at = edge;
  }

  /** Sets `next` after the rate of the line was changed. */
  settleNext(): void {
    this.line.grid.moment(this.at + 1, this.next);
  }

  act(horizon: Instant): void {
    for (let i = 0; i < edgesAtOnce; i++) {
      this.passIdleEdges(horizon);
      this.line.grid.moment(this.at + 1, this.gridMoment);
      if (!this.gridMoment.isBefore(horizon) && this.gridMoment.compare(this.next) !== 0) break;
      this.at++;
      this.lookAt(this.at);
      this.settleNext();
      if (this.isStopped || !this.next.isBefore(horizon)) return;
    }
    this.settleNext();
  }

  private lookAt(n: number): void {
    const { edge, line } = this;
    line.advanceTo(n, edge);
    edge.marks = this.marks;
    this.marks = 0;
    this.handOn(this.count, edge);
  }

  private passIdleEdges(horizon: Instant): void {
    if (!this.isLazy) return;
    const { line } = this;
    const last = line.grid.firstFrom(horizon) - 1;
    const idle = Math.min(last, line.firstPossible(this.wake(), 0) - 1);
    if (idle > this.at) this.at = idle;
  }
}
