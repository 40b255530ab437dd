import { type Edge, mark } from "../../kernel/index.ts";
import type { RandomStream } from "../../numeric/index.ts";
import { binomial, Instant } from "../../numeric/index.ts";
import type { CounterParameters } from "./counter-parameters.ts";

/** An edge the counter is going to miss, or to count twice, from this moment on. */
interface PlannedMiscount {
  readonly at: number;
  readonly cycles: 1 | -1;
}

/**
 * The counter's input stage: hold-off, and edges missed or counted twice.
 *
 * Edges that nobody looked at are counted too: their number follows from the count of the source, and how
 * many of them were missed or counted twice is drawn from its exact (binomial) distribution. Where the hold-off
 * hides edges, the next that counts is the first after it has run out, and those before it are none.
 */
export class EdgeInput {
  /** Cycles the counter has counted, the edge last accepted included. */
  cycles = 0;
  /** The same without the edge last offered. */
  cyclesBefore = 0;
  /** What befell the edges since the one accepted before; bits of `mark`. */
  marks = 0;
  private sourceCount = 0;
  /** End of the hold-off: no edge before it is seen. */
  readonly release = new Instant();
  /** When the next planned miscount is due; no edge from there on may be passed over. */
  readonly due = new Instant().setNever();
  private readonly planned: PlannedMiscount[] = [];
  private readonly parameters: CounterParameters;
  private readonly stream: RandomStream;
  private readonly hidesEdges: boolean;

  /**
   * @param hidesEdges - whether the hold-off is so long that edges nobody looked at are hidden ones
   */
  constructor(parameters: CounterParameters, stream: RandomStream, hidesEdges = false) {
    this.parameters = parameters;
    this.stream = stream;
    this.hidesEdges = hidesEdges;
  }

  /**
   * Plans one missed (−1) or extra (+1) edge: the first one at or after `at`.
   *
   * @param at - true time; s. Calls come in order of time.
   */
  plan(at: number, cycles: 1 | -1): void {
    this.planned.push({ at, cycles });
    if (this.planned.length === 1) this.due.set(at, 0);
  }

  /** The earlier of a moment and the next planned miscount. */
  earlier(moment: Instant): Instant {
    return this.due.isBefore(moment) ? this.due : moment;
  }

  /**
   * Takes an edge of the source.
   *
   * @returns whether the counter sees it; `cycles` and `marks` are then up to date
   */
  accept(edge: Edge): boolean {
    this.marks |= edge.marks;
    this.skip(edge.count - this.sourceCount - 1);
    this.sourceCount = edge.count;
    this.cyclesBefore = this.cycles;
    if (this.parameters.holdoff > 0) {
      if (edge.instant.isBefore(this.release)) return false;
      this.release.copy(edge.instant);
      this.release.add(this.parameters.holdoff);
    }
    const own = Math.max(-1, this.miscounted(1) + this.plannedFor(edge.instant));
    this.cycles += 1 + own;
    return own >= 0;
  }

  /** Counts edges that nobody looked at. */
  skip(edges: number): void {
    if (edges <= 0) return;
    this.sourceCount += edges;
    if (this.hidesEdges) return;
    this.cycles += edges + this.miscounted(edges);
    this.cyclesBefore = this.cycles;
  }

  /** Counts the edges up to the end of the run that nobody looked at. */
  skipTo(count: number): void {
    this.skip(count - this.sourceCount);
  }

  /** Cycles too many (or too few, negative) among `edges` edges. */
  private miscounted(edges: number): number {
    const { missedEdgeProbability: missed, extraEdgeProbability: extra } = this.parameters;
    let cycles = 0;
    if (missed > 0) {
      const n = binomial(this.stream, edges, missed);
      if (n > 0) this.marks |= mark.missedEdge;
      cycles -= n;
    }
    if (extra > 0) {
      const n = binomial(this.stream, edges, extra);
      if (n > 0) this.marks |= mark.extraEdge;
      cycles += n;
    }
    return cycles;
  }

  /** One planned miscount at most befalls an edge; the next waits for the next edge. */
  private plannedFor(now: Instant): number {
    if (now.isBefore(this.due)) return 0;
    const { cycles } = this.planned.shift()!;
    this.marks |= cycles < 0 ? mark.missedEdge : mark.extraEdge;
    if (this.planned.length > 0) this.due.set(this.planned[0]!.at, 0);
    else this.due.setNever();
    return cycles;
  }
}
