import { Edge } from "../kernel/index.ts";
import { Instant } from "../numeric/index.ts";
import type { Recording } from "../scenario/index.ts";
import type { StepCounter } from "../stages/clock/index.ts";
import type { BurstTrain } from "./burst-train.ts";
import type { Dial } from "./dial.ts";
import type { SynthesizerLine } from "./edge-line.ts";
import { outcome, type Sinks } from "./sinks.ts";
import type { SlipCause } from "./slips.ts";
import type { TickOutput } from "./tick-output.ts";

/** What bursts are made into steps with. */
export interface BurstStepParts {
  readonly line: SynthesizerLine;
  readonly train: BurstTrain;
  readonly steps: StepCounter;
  readonly dial: Dial;
  readonly output: TickOutput;
  readonly sinks: Sinks;
  readonly recording: Recording;
}

const causes: Readonly<Record<number, SlipCause>> = {
  [outcome.dropped]: "dropped",
  [outcome.missed]: "missed",
  [outcome.blocked]: "blocked",
};

/** From burst to step to tick: one by one, in rows, or in jumps, as it is told. A step comes a delay after its burst. */
export class BurstSteps {
  private readonly lastStep = new Instant();
  private hasStopped = false;
  private isDue = false;
  /** The burst last looked at; while its step is due, the moment of that. */
  private readonly edge = new Edge();
  private readonly extraEdge = new Edge();
  private readonly moment = new Instant();
  private readonly parts: BurstStepParts;

  constructor(parts: BurstStepParts) {
    this.parts = parts;
  }

  /** Whether the step of the burst last looked at is still to come, at `dueAt`. */
  get isStepDue(): boolean {
    return this.isDue;
  }

  get dueAt(): Instant {
    return this.edge.instant;
  }

  /** Sets `out` to when a silence of a length has passed since the last step. */
  silenceEnd(length: number, out: Instant): Instant {
    return out.copy(this.lastStep).add(length);
  }

  get isStopped(): boolean {
    return this.hasStopped;
  }

  /** Nothing more is handed on. */
  stop(): void {
    this.hasStopped = true;
  }

  /**
   * Goes through a row of bursts, each sure to be a step, with nothing else to happen meanwhile.
   *
   * @param last - the last burst that may be among them
   * @param isEach - whether each burst is looked at, or only those that make ticks
   * @returns how many bursts were looked at; 0 where they have to be gone through one by one
   */
  goInRow(last: number, isEach: boolean): number {
    const { train, line, sinks, steps, dial, recording } = this.parts;
    const { edge, lastStep } = this;
    const stride = isEach ? 1 : steps.stepsPerTick;
    if (recording === "lazy" || (stride > 1 && steps.steps !== 0)) return 0;
    const first = train.at + stride;
    const bursts = train.goInRow(stride, last);
    const { delays } = train;
    const { row } = line;
    for (let i = 0, burst = first; i < bursts && !this.hasStopped; i++, burst += stride) {
      sinks.burst?.(burst, line.timeErrorAt(i), delays[i]!, outcome.step);
      if (steps.advance(stride) === 0) continue;
      row.moment(i, edge.instant);
      edge.instant.add(delays[i]!);
      line.describeAt(i, edge);
      dial.handOn(edge, burst);
    }
    if (bursts > 0) {
      row.moment(bursts - 1, lastStep);
      lastStep.add(delays[bursts - 1]!);
    }
    return bursts;
  }

  /** Goes on by one burst. */
  goOne(isSure: boolean): void {
    const { train, sinks, line } = this.parts;
    const delay = train.goOn(isSure);
    sinks.burst?.(train.at, line.timeErrorAt(0), delay, train.outcome);
    this.await(delay);
  }

  /** Jumps to the next burst that makes a tick anybody may look at, or to burst `last`. */
  jump(last: number): void {
    const { steps, train, output, recording } = this.parts;
    if (recording === "lazy") {
      const idle = Math.min(train.lastIdle(output.wake), last) - train.at;
      if (idle > 0) steps.advance(this.pass(idle));
    }
    while (train.at < last) {
      const { missing } = steps;
      const good = this.pass(Math.min(missing, last - train.at));
      if (good < missing) {
        steps.advance(good);
        continue;
      }
      // The last of them makes the tick: that one is looked at.
      steps.advance(good - 1);
      this.await(train.look(true));
      return;
    }
  }

  /** The step that is due comes now: the silence is over. `count` goes on from there. */
  endSilence(): void {
    this.isDue = false;
    this.lastStep.copy(this.edge.instant);
  }

  /** After a jump: the bursts passed over made their steps, the last of them just now. */
  catchUp(): void {
    const { train } = this.parts;
    if (train.isUndetected) train.expect(0, this.lastStep);
  }

  /** Counts the step that has come, and hands on the tick it makes. */
  count(): void {
    const { edge } = this;
    const { steps, line, dial, train } = this.parts;
    const ticks = steps.advance(1);
    this.settle(edge.instant);
    if (ticks > 0) {
      line.describe(edge);
      dial.handOn(edge, train.at);
    }
  }

  /** A step out of its turn, too many or too few; a tick, if it makes one, comes at once. */
  displace(steps: 1 | -1, at: Instant): void {
    const { edge, extraEdge } = this;
    const { dial, line, train } = this.parts;
    dial.displace(at.toSeconds(), steps);
    if (steps < 0 || this.parts.steps.advance(1) === 0) return;
    if (train.at > line.at) line.moveOn(train.at, edge.instant);
    line.describe(edge);
    extraEdge.copy(edge);
    extraEdge.instant.copy(at);
    dial.handOn(extraEdge, train.at);
  }

  /** Writes down the displacement of the dial that is pending, at a moment to which the drive has been followed. */
  settle(at: Instant): void {
    const { dial, line, train } = this.parts;
    if (dial.isUnsettled) dial.settle(at.toSeconds(), line.grid.nominal(train.at), this.underway);
  }

  /** Steps of bursts come to that are still to come. */
  get underway(): number {
    return this.isDue ? 1 : 0;
  }

  /** Passes over bursts and returns how many of them arrived. */
  private pass(bursts: number): number {
    const { moment } = this;
    const { train, dial } = this.parts;
    const dropped = train.pass(bursts);
    if (dropped > 0) {
      train.expect(0, moment);
      dial.lose(moment.toSeconds(), dropped, "dropped");
    }
    return bursts - dropped;
  }

  /** The burst looked at is going to make a step after a delay, or is lost. */
  private await(delay: number): void {
    const { edge } = this;
    const { train, dial } = this.parts;
    edge.instant.copy(train.start);
    if (train.outcome === outcome.step) {
      edge.instant.add(delay);
      this.isDue = true;
    } else {
      dial.lose(edge.instant.toSeconds(), 1, causes[train.outcome]!);
    }
  }
}
