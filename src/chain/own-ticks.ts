import { Edge, mark } from "../kernel/index.ts";
import type { Instant } from "../numeric/index.ts";
import type { FallbackOscillator, StepCounter } from "../stages/clock/index.ts";
import type { EdgeLine } from "./edge-line.ts";
import type { SlipRecord } from "./slips.ts";
import type { TickOutput } from "./tick-output.ts";

/** The ticks that the clock's own oscillator makes from when it takes over: at once, and then one a period. */
export class OwnTicks {
  private isNew = false;
  private lapse = 0;
  private readonly edge = new Edge();
  private readonly oscillator: FallbackOscillator;
  private readonly line: EdgeLine;
  private readonly steps: StepCounter;
  private readonly output: TickOutput;
  private readonly slips: SlipRecord;

  constructor(
    oscillator: FallbackOscillator,
    line: EdgeLine,
    steps: StepCounter,
    output: TickOutput,
    slips: SlipRecord,
  ) {
    this.oscillator = oscillator;
    this.line = line;
    this.steps = steps;
    this.output = output;
    this.slips = slips;
  }

  /** When it ticks next. */
  get next(): Instant {
    return this.oscillator.next;
  }

  /** True time of the last tick; s. */
  get lastMoment(): number {
    return this.edge.instant.toSeconds();
  }

  /** Nominal time of the last tick; s. */
  get lastNominal(): number {
    return this.edge.nominal;
  }

  /**
   * Takes over.
   *
   * @param at - when
   * @param lapse - nominal time since the last tick; s
   */
  begin(at: Instant, lapse: number): void {
    this.isNew = true;
    this.oscillator.begin(at);
    this.lapse = lapse;
  }

  /** Makes the next tick. */
  tick(): void {
    const { oscillator, output, steps, edge } = this;
    edge.instant.copy(oscillator.next);
    steps.tickAndClear(1);
    this.line.writeTruth(edge);
    this.writeSpan();
    output.note(mark.fallback);
    edge.isFallback = true;
    edge.lapse = this.lapse;
    output.emit(steps.ticks, edge);
    oscillator.advance(1);
    this.lapse = oscillator.lapse;
  }

  /** Passes over ticks that surely come before a moment. */
  passTo(moment: Instant): void {
    const { oscillator } = this;
    const idle = oscillator.periodsBefore(moment);
    if (idle === 0) return;
    // Whatever its first tick is to the counter: from then on the clock is on its own.
    this.writeSpan();
    this.steps.tickAndClear(idle);
    oscillator.advance(idle);
    this.lapse += oscillator.lapse;
  }

  /** The tick that comes next belongs to the span on the clock's own oscillator. */
  private writeSpan(): void {
    this.slips.inFallback(this.oscillator.next.toSeconds(), this.isNew);
    this.isNew = false;
  }
}
