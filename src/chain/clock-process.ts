import type { Process } from "../kernel/index.ts";
import { Edge, mark } from "../kernel/index.ts";
import type { RandomStream } from "../numeric/index.ts";
import { binomial, Instant } from "../numeric/index.ts";
import type { Recording } from "../scenario/index.ts";
import type { StepCounter } from "../stages/clock/index.ts";
import type { BurstDrive } from "../stages/drive/index.ts";
import type { BurstDetector } from "../stages/receiver/index.ts";
import type { SynthesizerLine } from "./edge-line.ts";
import type { LawfulDelays } from "./lawful-delays.ts";
import { outcome, type Sinks } from "./sinks.ts";
import type { SlipCause, SlipRecord } from "./slips.ts";
import type { TickOutput } from "./tick-output.ts";

/** Bursts looked at before the simulator gets its turn again. */
const burstsAtOnce = 4096;

/** Bursts that go through the stages together, at most. */
const rowLength = 64;

/** The parts a clock on bursts is made of. */
export interface ClockParts {
  readonly line: SynthesizerLine;
  readonly drive: BurstDrive;
  readonly detector: BurstDetector;
  /** Delays by their law; null where so few bursts are looked at that all are detected. */
  readonly lawful: LawfulDelays;
  readonly steps: StepCounter;
  readonly output: TickOutput;
  readonly slips: SlipRecord;
  readonly sinks: Sinks;
  /** Length of a burst; s. */
  readonly burst: number;
  readonly dropProbability: number;
  /** Stream of the drops among bursts that nobody looks at. */
  readonly dropStream: RandomStream;
  readonly recording: Recording;
}

/**
 * From synthesizer edge to tick: each edge opens a burst, each burst detected is a step, every so many
 * steps are a tick.
 *
 * Where every burst is sure to be detected (but for drops, whose number is binomial) it jumps to the burst
 * that makes the next tick, or, lazily, to the first that can matter to the counter. Else, and where all
 * bursts are to be recorded, it goes burst by burst. A step comes when the burst is detected, in order with
 * whatever else happens meanwhile.
 */
export class ClockProcess implements Process {
  readonly next = new Instant();
  /** When the last step was made that went through `lookAt`. */
  readonly lastStep = new Instant();
  /** Called after a step that does not come in quiet, so that the fallback can be ended. */
  onStep: (() => void) | null = null;
  /** Whether each burst has to be looked at. */
  isStepwise = false;
  /** True while every burst that arrives is sure to make its step, and nothing else is going to happen soon. */
  isQuiet = false;
  /** False while the drive is off. */
  isDriven = true;
  /** Factor on the amplitude of the tone. */
  amplitudeFactor = 1;
  /** True once the run has come to its end. */
  isStopped = false;
  /** Why the dial may be displaced by more than was written down; settled at the next step. */
  unsettled: SlipCause | null = null;
  /** Set where something new may come before the horizon: the simulator is to look again. */
  mustYield = false;
  private burst = 0;
  /** What became of the burst last computed. */
  private outcome: number = outcome.step;
  /** True while the step of the burst looked at is still to come, at the moment in `edge`. */
  private isStepping = false;
  /** Bursts to be computed before one looked at, for the charge they leave behind. */
  private burstsToForget = 0;
  /** Whether the tone is as it was set, and nothing before bears on a burst. */
  private isFree = false;
  /** Which of the bursts passed over last were dropped, by number modulo the length. */
  private dropped = new Uint8Array(1);
  private looked = -1;
  /** Bursts up to this one have left nothing behind. */
  private forgotten = 0;
  private handedOn = 0;
  /** Nominal time of the tick last handed on; s. */
  handedOnNominal = 0;
  private readonly phases = new Float64Array(rowLength);
  private readonly delays = new Float64Array(rowLength);
  private readonly edge = new Edge();
  private readonly extraEdge = new Edge();
  private readonly lookedEnd = new Instant();
  private readonly dropMoment = new Instant();
  private readonly parts: ClockParts;
  private readonly setHz: number;

  constructor(parts: ClockParts) {
    this.parts = parts;
    this.setHz = 1 / parts.line.grid.period;
    this.settlePeriod();
    this.settleNext();
  }

  /** Steps by which the dial is ahead of where the drive at its set rate would have brought it. */
  displacement(nominal: number = this.parts.line.grid.nominal(this.burst)): number {
    const { steps } = this.parts;
    const pending = this.isStepping ? 1 : 0;
    const shown = steps.ticks * steps.stepsPerTick + steps.steps + pending;
    return Math.round((shown - nominal * this.setHz) * 1e6) / 1e6;
  }

  /** Writes down what displacement was not yet, under the cause that is pending. */
  settle(at: number, nominal?: number): void {
    if (this.unsettled === null) return;
    const { slips } = this.parts;
    const steps = Math.round((this.displacement(nominal) - slips.total) * 1e6) / 1e6;
    slips.add(at, steps, this.unsettled);
    this.unsettled = null;
  }

  /** Writes a slip down. */
  recordSlip(at: number, steps: number, cause: SlipCause): void {
    this.parts.slips.add(at, steps, cause);
  }

  /** Number of the burst that comes next. */
  get nextBurst(): number {
    return this.burst + 1;
  }

  /** Sets `next` after the drive was switched on or off, or its rate changed. */
  settleNext(): void {
    if (this.isStepping) this.next.copy(this.edge.instant);
    else if (this.isDriven) this.parts.line.expect(this.burst + 1, this.next);
    else this.next.setNever();
  }

  /** What bursts leave behind after the period between them or their amplitude has changed. */
  settlePeriod(): void {
    const { line, detector } = this.parts;
    this.burstsToForget = detector.burstsToForget(line.grid.period, this.amplitudeFactor);
    this.isFree = this.burstsToForget === 0 && this.amplitudeFactor === 1;
    this.dropped = new Uint8Array(this.burstsToForget + 1);
  }

  /** From a jump to a closer look: bursts passed over made their steps, the last of them just now. */
  lookCloser(): void {
    if (this.isStepwise || this.burst <= this.looked) return;
    this.parts.line.expect(this.burst, this.lastStep);
  }

  /** Passes over bursts that do not arrive: those before `at`. */
  passSilence(at: Instant): void {
    this.silenceTo(Math.max(this.burst, this.parts.line.firstExpected(at) - 1));
  }

  /** Goes on to a burst in silence: what was computed goes on decaying, all else is forgotten. */
  private silenceTo(burst: number): void {
    if (this.looked === this.burst) this.looked = burst;
    else this.forgotten = burst;
    this.burst = burst;
  }

  /** A step out of its turn; a tick, if it makes one, comes at once. */
  extraStep(at: Instant): void {
    const { steps, line, output } = this.parts;
    output.marks |= mark.slip;
    if (steps.advance(1) === 0) return;
    const { edge, extraEdge } = this;
    if (this.burst > this.looked && this.burst > line.at) line.moveOn(this.burst, edge.instant);
    line.describe(edge);
    extraEdge.copy(edge);
    extraEdge.instant.copy(at);
    this.handOn(extraEdge);
  }

  act(horizon: Instant): void {
    this.mustYield = false;
    // The last burst that is sure to begin before the horizon.
    let last = this.parts.line.firstExpected(horizon) - 1;
    for (let done = 0; done < burstsAtOnce; done++) {
      const row = this.isQuiet && !this.isStepping ? this.goQuietly(last - 2) : 0;
      done += row;
      if (this.isStopped) break;
      if (row > 0) continue;
      if (this.isStepping) this.step();
      else if (this.isStepwise) this.goOneBurst();
      else this.jump(Math.max(this.burst + 1, last));
      if (this.isStepping && this.edge.instant.isBefore(horizon)) this.step();
      if (this.isStopped || this.mustYield) break;
      if (this.isQuiet && !this.isStepping && this.burst < last) continue;
      this.settleNext();
      if (!this.next.isBefore(horizon)) return;
      last = this.parts.line.firstExpected(horizon) - 1;
    }
    this.settleNext();
  }

  /**
   * Goes through a row of bursts, each sure to be a step whose delay is drawn by its law, with nothing else to
   * happen meanwhile. Each stage does its part for the whole row.
   *
   * @param last - the last burst that may be among them
   * @returns how many they were; 0 where bursts have to be gone through one by one
   */
  private goQuietly(last: number): number {
    const { line, drive, lawful, sinks, steps, dropProbability, recording } = this.parts;
    const { sampler } = lawful;
    if (sampler === null || !this.isFree || dropProbability > 0 || recording === "lazy") return 0;
    const stride = this.isStepwise ? 1 : steps.stepsPerTick;
    if (stride > 1 && steps.steps !== 0) return 0;
    const edges = Math.min(rowLength, Math.floor((last - this.burst) / stride));
    if (edges < 1 || line.at !== this.burst || !line.grid.isEvenFrom(this.burst)) return 0;
    const { row } = line;
    const { edge, phases, delays } = this;
    line.moveAlong(stride, edges);
    drive.phases(row.wholes, row.fractions, edges, phases);
    sampler.draw(phases, edges, delays);
    let done = 0;
    while (done < edges && !this.isStopped) {
      const i = done++;
      this.burst += stride;
      sinks.burst?.(this.burst, line.timeErrorAt(i), delays[i]!, outcome.step);
      if (steps.advance(stride) === 0) continue;
      row.moment(i, edge.instant);
      this.passDelay(delays[i]!);
      line.describeAt(i, edge);
      this.handOn(edge);
    }
    row.moment(done - 1, this.lastStep);
    this.lastStep.add(delays[done - 1]!);
    this.forgotten = this.burst;
    return edges;
  }

  private goOneBurst(): void {
    const { drive, sinks, line, slips } = this.parts;
    const isDropped = drive.drawDrop();
    let delay = Number.NaN;
    let result: number = outcome.dropped;
    if (isDropped) {
      this.silenceTo(this.burst + 1);
      line.moveOn(this.burst, this.edge.instant);
    } else {
      delay = this.lookAt(++this.burst);
      result = this.outcome;
    }
    sinks.burst?.(this.burst, line.timeErrorAt(0), delay, result);
    if (result === outcome.step) this.await(delay);
    else {
      this.parts.output.marks |= mark.slip;
      if (this.unsettled === null) {
        const cause = isDropped ? "dropped" : result === outcome.missed ? "missed" : "blocked";
        slips.add(this.edge.instant.toSeconds(), -1, cause);
      }
    }
  }

  /** Jumps to the next burst that makes a tick anybody may look at, or to burst `last`. */
  private jump(last: number): void {
    const { steps, recording } = this.parts;
    if (recording === "lazy") {
      const idle = Math.min(this.lastIdleBurst(), last) - this.burst;
      if (idle > 0) steps.advance(this.passBursts(idle));
    }
    while (this.burst < last) {
      const missing = steps.missing;
      const good = this.passBursts(Math.min(missing, last - this.burst));
      if (good < missing) {
        steps.advance(good);
        continue;
      }
      // The last of them makes the tick: that one is looked at.
      steps.advance(good - 1);
      const delay = this.lookAt(this.burst);
      if (this.outcome === outcome.step) this.await(delay);
      else this.loseStep();
      return;
    }
  }

  /** The last burst whose step cannot come after the counter wakes. */
  private lastIdleBurst(): number {
    const { line, output, burst } = this.parts;
    return line.firstPossible(output.wake, burst) - 1;
  }

  /** Passes over bursts and returns how many of them arrived. */
  private passBursts(bursts: number): number {
    const from = this.burst + 1;
    this.burst += bursts;
    const { dropProbability, dropStream, slips, output } = this.parts;
    if (dropProbability === 0) return bursts;
    // Only of those whose charge may still be felt it matters which were dropped.
    const felt = Math.min(bursts, this.burstsToForget);
    let dropped = binomial(dropStream, bursts - felt, dropProbability);
    for (let burst = from + bursts - felt; burst <= this.burst; burst++) {
      const isDropped = dropStream.uniform() < dropProbability ? 1 : 0;
      this.dropped[burst % this.dropped.length] = isDropped;
      dropped += isDropped;
    }
    if (dropped > 0) {
      this.parts.line.expect(this.burst, this.dropMoment);
      slips.add(this.dropMoment.toSeconds(), -dropped, "dropped");
      output.marks |= mark.slip;
    }
    return bursts - dropped;
  }

  /** Computes burst n: its start into `edge`, its delay (NaN without a step) as the result. */
  private lookAt(n: number): number {
    const first = Math.max(n - this.burstsToForget, this.looked + 1, this.forgotten + 1);
    for (let before = first; before < n; before++) {
      if (this.dropped[before % this.dropped.length] === 0) this.detect(before);
      else if (this.looked === before - 1) this.looked = before;
    }
    return this.detect(n);
  }

  private detect(n: number): number {
    const { line, drive, detector, lawful, burst } = this.parts;
    const { edge } = this;
    line.moveOn(n, edge.instant);
    const sampler = this.isQuiet && this.isFree ? lawful.next() : null;
    if (sampler !== null) {
      this.forgotten = n;
      this.outcome = outcome.step;
      return sampler.drawOne(drive.phaseAt(edge.instant));
    }
    if (n === this.looked + 1) detector.rest(edge.instant.minus(this.lookedEnd));
    else detector.begin();
    this.looked = n;
    this.lookedEnd.copy(edge.instant);
    this.lookedEnd.add(burst);
    const delay = detector.detect(
      drive.phaseAt(edge.instant),
      drive.drawAmplitude() * this.amplitudeFactor,
    );
    this.outcome = detector.outcome;
    return delay;
  }

  /** The burst looked at is going to make a step. */
  private await(delay: number): void {
    this.passDelay(delay);
    this.isStepping = true;
  }

  /** From the start of a burst, in `edge`, to its step. */
  private passDelay(delay: number): void {
    this.edge.instant.add(delay);
  }

  private step(): void {
    const { edge } = this;
    const { steps, line } = this.parts;
    this.isStepping = false;
    this.lastStep.copy(edge.instant);
    if (!this.isQuiet) this.onStep?.();
    const ticks = steps.advance(1);
    if (this.unsettled !== null) this.settle(edge.instant.toSeconds());
    if (ticks > 0) {
      line.describe(edge);
      this.handOn(edge);
    }
  }

  private loseStep(): void {
    const { slips, output } = this.parts;
    const cause = this.outcome === outcome.missed ? "missed" : "blocked";
    slips.add(this.edge.instant.toSeconds(), -1, cause);
    output.marks |= mark.slip;
  }

  private handOn(edge: Edge): void {
    const { line, output, steps } = this.parts;
    edge.lapse = line.grid.lapse(this.handedOn, this.handedOnNominal, this.burst);
    edge.isFallback = false;
    this.handedOn = this.burst;
    this.handedOnNominal = edge.nominal;
    output.emit(steps.ticks, edge);
  }

  /** After ticks of the fallback: the next lapse is counted from its last tick. */
  resumeFrom(nominal: number): void {
    this.handedOn = Number.NEGATIVE_INFINITY;
    this.handedOnNominal = nominal;
  }
}
