import type { Process } from "../kernel/index.ts";
import { Edge, mark } from "../kernel/index.ts";
import { Instant } from "../numeric/index.ts";
import type { EdgeLine } from "./edge-line.ts";

/** Edges handed on before the simulator gets its turn again. */
const edgesAtOnce = 4096;

/**
 * Hands the edges of a reference or synthesizer on, every one or only those that can matter.
 */
export class LineProcess implements Process {
  readonly next = new Instant();
  private isStopped = false;
  /** Edges the watcher counts more (or fewer) than the line made. */
  private surplus = 0;
  /** Edges still to be missed. */
  private toMiss = 0;
  private marks = 0;
  private at = 0;
  private readonly edge = new Edge();
  private readonly extra = new Edge();
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

  /** Number of the edge that comes next, in the count of the line. */
  get nextEdge(): number {
    return this.at + 1;
  }

  /** The next edge is missed. */
  missNext(): void {
    this.toMiss++;
    this.marks |= mark.slip;
  }

  /** An edge more than the line makes, at once. */
  addExtra(now: Instant): void {
    const { extra, line } = this;
    this.surplus++;
    extra.instant.copy(now);
    line.writeTruth(extra);
    extra.marks = this.marks | mark.slip;
    this.marks = 0;
    this.handOn(this.count, extra);
  }

  /** Passes over edges that lie before a change. */
  passTo(edge: number): void {
    if (edge <= this.at) return;
    const missed = Math.min(this.toMiss, edge - this.at);
    this.toMiss -= missed;
    this.surplus -= missed;
    this.at = edge;
  }

  /** Sets `next` after the rate of the line was changed. */
  settleNext(): void {
    this.line.expect(this.at + 1, this.next);
  }

  /** Acts no more. */
  stop(): void {
    this.isStopped = true;
  }

  act(horizon: Instant): void {
    for (let i = 0; i < edgesAtOnce; i++) {
      const last = Math.max(this.at + 1, this.line.firstExpected(horizon) - 1);
      if (this.isLazy) this.passTo(Math.min(last, this.line.firstPossible(this.wake(), 0) - 1));
      if (this.at < last) {
        if (this.toMiss > 0) this.passTo(this.at + 1);
        else this.lookAt(++this.at);
      }
      this.settleNext();
      if (this.isStopped || !this.next.isBefore(horizon)) return;
    }
  }

  private lookAt(n: number): void {
    const { edge, line } = this;
    line.advanceTo(n, edge);
    edge.marks = this.marks;
    this.marks = 0;
    this.handOn(this.count, edge);
  }
}
