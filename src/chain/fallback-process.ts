import type { Process, ScheduledEvent, Simulator } from "../kernel/index.ts";
import { Edge, mark } from "../kernel/index.ts";
import type { RandomStream } from "../numeric/index.ts";
import { Instant } from "../numeric/index.ts";
import type { Recording } from "../scenario/index.ts";
import type { ClockParameters, FallbackParameters, StepCounter } from "../stages/clock/index.ts";
import { FallbackOscillator } from "../stages/clock/index.ts";
import type { ClockProcess } from "./clock-process.ts";
import type { EdgeLine } from "./edge-line.ts";
import { priority } from "./priority.ts";
import type { SlipRecord } from "./slips.ts";
import type { TickOutput } from "./tick-output.ts";

/** Ticks before the simulator gets its turn again. */
const ticksAtOnce = 4096;

/**
 * The watchdog of the clock and what it wakes: after a silence of `after` the clock's own oscillator ticks,
 * at that moment and then once a period of its own, until the first good burst.
 */
export class FallbackProcess implements Process {
  readonly next = new Instant().setNever();
  isActive = false;
  /** True until the first tick after it took over. */
  private isNew = false;
  isStopped = false;
  private readonly oscillator: FallbackOscillator;
  private readonly edge = new Edge();
  private readonly deadline = new Instant();
  private watch: ScheduledEvent | null = null;
  private lapse = 0;
  private lastNominal = 0;
  private readonly parameters: FallbackParameters;
  private readonly simulator: Simulator;
  private readonly clock: ClockProcess;
  private readonly line: EdgeLine;
  private readonly steps: StepCounter;
  private readonly output: TickOutput;
  private readonly slips: SlipRecord;
  private readonly recording: Recording;

  constructor(
    parameters: FallbackParameters,
    clockParameters: ClockParameters,
    parts: {
      readonly simulator: Simulator;
      readonly clock: ClockProcess;
      readonly line: EdgeLine;
      readonly steps: StepCounter;
      readonly output: TickOutput;
      readonly slips: SlipRecord;
      readonly recording: Recording;
      readonly stream: RandomStream;
    },
  ) {
    this.parameters = parameters;
    this.simulator = parts.simulator;
    this.clock = parts.clock;
    this.line = parts.line;
    this.steps = parts.steps;
    this.output = parts.output;
    this.slips = parts.slips;
    this.recording = parts.recording;
    this.oscillator = new FallbackOscillator(parameters, clockParameters.tickHz, parts.stream);
  }

  /** Watches for silence from now on; needs the clock to go burst by burst while it does. */
  arm(): void {
    if (this.watch !== null || this.isActive) return;
    this.deadline.copy(this.clock.lastStep);
    this.deadline.add(this.parameters.after);
    if (this.deadline.isBefore(this.simulator.now)) this.deadline.copy(this.simulator.now);
    this.watch = this.simulator.schedule(this.deadline, priority.watchdog, () => this.look());
  }

  /** Stops watching: every burst is sure to come. */
  disarm(): void {
    if (this.watch !== null) this.watch.isCancelled = true;
    this.watch = null;
  }

  /** The first good burst: the drive has the clock again. */
  end(): void {
    if (!this.isActive) return;
    this.isActive = false;
    this.next.setNever();
    this.clock.resumeFrom(this.lastNominal);
    this.clock.mustYield = true;
    this.arm();
  }

  act(horizon: Instant): void {
    const { oscillator, output, steps } = this;
    for (let i = 0; i < ticksAtOnce; i++) {
      if (this.recording === "lazy") this.passIdleTicks(horizon);
      this.edge.instant.copy(oscillator.next);
      steps.tickAndClear();
      this.writeTruth();
      this.writeSpan();
      output.marks |= mark.fallback;
      this.edge.isFallback = true;
      this.edge.lapse = this.lapse;
      output.emit(steps.ticks, this.edge);
      oscillator.advance(1);
      this.lapse = oscillator.lapse;
      this.next.copy(oscillator.next);
      if (this.isStopped || !this.next.isBefore(horizon)) return;
    }
  }

  /** Displacement of the dial at the last tick, for a run that ends in fallback. */
  settle(): void {
    if (this.isActive) this.clock.settle(this.edge.instant.toSeconds(), this.lastNominal);
  }

  private look(): void {
    this.watch = null;
    this.deadline.copy(this.clock.lastStep);
    this.deadline.add(this.parameters.after);
    if (this.simulator.now.isBefore(this.deadline)) this.arm();
    else this.takeOver();
  }

  private takeOver(): void {
    this.isActive = true;
    this.isNew = true;
    this.clock.unsettled = "fallback";
    this.oscillator.begin(this.simulator.now);
    this.next.copy(this.oscillator.next);
    this.lapse = Math.max(0, this.simulator.now.toSeconds() - this.clock.handedOnNominal);
  }

  private passIdleTicks(horizon: Instant): void {
    const { oscillator } = this;
    const first = this.output.wake.isBefore(horizon) ? this.output.wake : horizon;
    const idle = oscillator.periodsBefore(first);
    if (idle === 0) return;
    // Whatever its first tick is to the counter: from then on the clock is on its own.
    this.writeSpan();
    this.steps.ticks += idle;
    this.steps.steps = 0;
    oscillator.advance(idle);
    this.lapse += oscillator.lapse;
  }

  /** The tick that comes next belongs to the span on the clock's own oscillator. */
  private writeSpan(): void {
    this.slips.inFallback(this.oscillator.next.toSeconds(), this.isNew);
    this.isNew = false;
  }

  private writeTruth(): void {
    this.line.writeTruth(this.edge);
    this.lastNominal = this.edge.nominal;
  }
}
