import { type Edge, mark } from "../kernel/index.ts";
import type { StepCounter } from "../stages/clock/index.ts";
import type { EdgeLine } from "./edge-line.ts";
import type { SlipCause, SlipRecord } from "./slips.ts";
import type { TickOutput } from "./tick-output.ts";

/**
 * The dial: counts steps, hands the ticks they make on to the contact, and knows by how much it stands off where the
 * drive at its set rate would have brought it.
 */
export class Dial {
  /** Burst and nominal time of the tick last handed on; s. */
  private handedOn = 0;
  private handedOnNominal = 0;
  /** Why it may be displaced by more than was written down; settled at the next step. */
  private pending: SlipCause | null = null;
  private readonly setHz: number;
  private readonly line: EdgeLine;
  private readonly steps: StepCounter;
  private readonly output: TickOutput;
  private readonly slips: SlipRecord;

  constructor(line: EdgeLine, steps: StepCounter, output: TickOutput, slips: SlipRecord) {
    this.line = line;
    this.steps = steps;
    this.output = output;
    this.slips = slips;
    this.setHz = 1 / line.grid.period;
  }

  /** Whether it is displaced by what is not yet written down. */
  get isUnsettled(): boolean {
    return this.pending !== null;
  }

  /** Nominal time since the tick last handed on, at a nominal time; s, >= 0. */
  since(nominal: number): number {
    return Math.max(0, nominal - this.handedOnNominal);
  }

  /** From now on the dial may be displaced by this cause, or still by the one before; the fallback has the last word. */
  unsettle(cause: SlipCause): void {
    if (this.pending === null || cause === "fallback") this.pending = cause;
  }

  /**
   * Writes down what displacement was not yet, under the cause that is pending.
   *
   * @param at - true time; s
   * @param nominal - where the drive at its set rate would have brought it by now; s
   * @param underway - steps of bursts before that are still to come
   */
  settle(at: number, nominal: number, underway: number): void {
    if (this.pending === null) return;
    const { steps, slips } = this;
    const shown = steps.ticks * steps.stepsPerTick + steps.steps + underway;
    slips.add(at, rounded(rounded(shown - nominal * this.setHz) - slips.total), this.pending);
    this.pending = null;
  }

  /** Steps lost to the drive; while the displacement is unsettled they are part of it. */
  lose(at: number, steps: number, cause: SlipCause): void {
    this.output.note(mark.slip);
    if (this.pending === null) this.slips.add(at, -steps, cause);
  }

  /** A step gained or lost by the clock itself, whatever the drive does. */
  displace(at: number, steps: 1 | -1): void {
    this.output.note(mark.slip);
    this.slips.add(at, steps, steps > 0 ? "extra_step" : "missed_step");
    if (steps < 0) this.steps.lose();
  }

  /** Hands on the tick that the last step made; `edge` belongs to this burst. */
  handOn(edge: Edge, burst: number): void {
    edge.lapse = this.line.grid.lapse(this.handedOn, this.handedOnNominal, burst);
    edge.isFallback = false;
    this.handedOn = burst;
    this.handedOnNominal = edge.nominal;
    this.output.emit(this.steps.ticks, edge);
  }

  /** After ticks that no burst made: the next lapse is counted from the last of them, at this nominal time. */
  resumeFrom(nominal: number): void {
    this.handedOn = Number.NEGATIVE_INFINITY;
    this.handedOnNominal = nominal;
  }
}

/** Steps to a millionth: displacements are sums of parts of steps. */
const rounded = (steps: number): number => Math.round(steps * 1e6) / 1e6;
