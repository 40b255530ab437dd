import type { Edge, Process, ScheduledEvent, Simulator } from "../kernel/index.ts";
import { mark } from "../kernel/index.ts";
import { Instant, RandomStream } from "../numeric/index.ts";
import type { Recording, Scenario } from "../scenario/index.ts";
import { FallbackOscillator, StepCounter } from "../stages/clock/index.ts";
import type { Counter } from "../stages/counter/index.ts";
import { BurstSteps } from "./burst-steps.ts";
import { BurstTrain } from "./burst-train.ts";
import { Dial } from "./dial.ts";
import { DriveState } from "./drive-state.ts";
import type { SynthesizerLine } from "./edge-line.ts";
import { scheduleExtraSteps } from "./extra-steps.ts";
import { OwnTicks } from "./own-ticks.ts";
import { burstsOfApproach, priority } from "./priority.ts";
import type { Sinks } from "./sinks.ts";
import type { SlipRecord } from "./slips.ts";
import type { ChainDisturbance, Source } from "./source.ts";
import type { SpeedDevices } from "./speed-devices.ts";
import { surenessOf } from "./sureness.ts";
import { TickOutput } from "./tick-output.ts";

/** Bursts looked at, or ticks of its own made, before the simulator gets its turn again. */
const actsAtOnce = 4096;

/** What the clock stands in. */
export interface BurstClockSurroundings {
  readonly simulator: Simulator;
  readonly line: SynthesizerLine;
  /** The counter on its contact; null where it watches another stage. */
  readonly counter: Counter | null;
  readonly sinks: Sinks;
  readonly slips: SlipRecord;
  readonly recording: Recording;
  readonly devices: SpeedDevices;
  readonly seed: string;
}

/**
 * The clock driven by bursts: each edge of the synthesizer opens a burst, each burst detected is a step, every so many
 * steps are a tick. After a silence its watchdog wakes its own oscillator, which ticks until the next good burst.
 *
 * Its gait: quiet is a clock whose bursts are sure to make their steps while nothing else is going to happen. Then, if a
 * burst leaves nothing behind, it jumps to the burst that makes the next tick, or, lazily, to the first that can matter to
 * the counter. Else, and where all bursts are to be recorded, it goes burst by burst. A step comes when the burst
 * is detected, in order with whatever else happens meanwhile.
 */
export class BurstClock implements Process, Source {
  readonly next = new Instant();
  private isStepwise = true;
  private isQuiet = false;
  private isOnItsOwn = false;
  /** Set where something new may come before the horizon: the simulator is to look again. */
  private mustYield = false;
  /** Things that are going to happen soon, or to end: each burst is looked at meanwhile. */
  private approached = 0;
  private watch: ScheduledEvent | null = null;
  private readonly nextBurst = new Instant();
  private readonly state = new DriveState();
  private readonly train: BurstTrain;
  private readonly steps: StepCounter;
  private readonly bursts: BurstSteps;
  private readonly output: TickOutput;
  private readonly dial: Dial;
  private readonly own: OwnTicks | null;
  /** Silence after which the clock's own oscillator takes over; s. */
  private readonly after: number;
  private readonly setPeriod: number;
  private readonly isSure: (amplitudeFactor: number, burstPeriod: number) => boolean;
  private readonly simulator: Simulator;
  private readonly line: SynthesizerLine;
  private readonly recording: Recording;

  constructor(scenario: Scenario, surroundings: BurstClockSurroundings) {
    const { simulator, line, counter, sinks, slips, recording, devices, seed } = surroundings;
    const { clock } = scenario;
    const { fallback } = clock;
    const streamOf = (path: string) => new RandomStream(seed, path);
    this.simulator = simulator;
    this.line = line;
    this.recording = recording;
    this.setPeriod = line.grid.period;
    this.isSure = surenessOf(scenario);
    const steps = new StepCounter(clock.stepsPerTick);
    const output = new TickOutput(clock, counter, sinks, streamOf("clock/bounce"));
    const train = new BurstTrain(scenario, line, seed, devices);
    const dial = new Dial(line, steps, output, slips);
    this.bursts = new BurstSteps({ line, train, steps, dial, output, sinks, recording });
    this.steps = steps;
    this.output = output;
    this.train = train;
    this.dial = dial;
    this.after = fallback?.after ?? 0;
    this.own = null;
    if (fallback !== null) {
      const stream = streamOf("clock/fallback");
      const oscillator = new FallbackOscillator(fallback, clock.tickHz, stream, devices.strides);
      this.own = new OwnTicks(oscillator, line, steps, output, slips);
    }
    simulator.add(this);
    const extraHz = scenario.receiver!.extraStepRateHz;
    const lead = burstsOfApproach * this.setPeriod;
    scheduleExtraSteps(this, extraHz, lead, streamOf("receiver/extra-steps"), simulator);
    this.chooseGait();
  }

  get count(): number {
    return this.steps.ticks;
  }

  approach(): void {
    this.approached++;
    this.chooseGait();
  }

  recede(): void {
    this.approached--;
    this.chooseGait();
  }

  displace(steps: 1 | -1, at: Instant): void {
    this.bursts.displace(steps, at);
  }

  begin(disturbance: ChainDisturbance, at: Instant): void {
    this.state.begin(disturbance);
    if (disturbance.kind === "missed_step") this.displace(-1, at);
    else if (disturbance.kind === "extra_step") this.displace(1, at);
    else this.change(disturbance, at);
    this.recede();
  }

  end(disturbance: ChainDisturbance, at: Instant): void {
    const { state, dial, train, simulator } = this;
    const { kind } = disturbance;
    state.end(disturbance);
    if (kind === "drive_off") train.passSilence(simulator.now);
    if (kind === "drive_off" || kind === "drive_rate") dial.unsettle(kind);
    this.change(disturbance, at);
    if (kind === "drive_rate" && state.isOn && !this.isOnItsOwn) this.bursts.settle(at);
    this.recede();
  }

  settle(at: Instant): void {
    const { own, dial, state, train, bursts } = this;
    if (own !== null && this.isOnItsOwn) {
      dial.settle(own.lastMoment, own.lastNominal, bursts.underway);
      return;
    }
    if (!state.isOn) {
      train.passSilence(at);
      dial.unsettle("drive_off");
    } else if (!state.isAtSetRate) {
      dial.unsettle("drive_rate");
    }
    bursts.settle(at);
  }

  finish(edge: Edge): void {
    this.line.writeTruth(edge);
    edge.lapse = this.dial.since(edge.nominal);
    edge.count = this.output.countAt(this.steps.ticks);
    edge.marks = this.output.marks;
    edge.isFallback = this.isOnItsOwn;
  }

  stop(): void {
    this.bursts.stop();
  }

  act(horizon: Instant): void {
    const { own, nextBurst } = this;
    if (own === null || !this.isOnItsOwn) this.goOn(horizon);
    else if (own.next.isBefore(nextBurst)) this.tickOnItsOwn(own, earlier(horizon, nextBurst));
    else this.goOn(earlier(horizon, own.next));
    this.settleNext();
  }

  private goOn(horizon: Instant): void {
    const { train, bursts, nextBurst } = this;
    this.mustYield = false;
    // The last burst that is sure to begin before the horizon.
    let last = train.lastBefore(horizon);
    for (let done = 0; done < actsAtOnce; done++) {
      const mayRow = this.isQuiet && !bursts.isStepDue;
      const row = mayRow ? bursts.goInRow(last - 2, this.isStepwise) : 0;
      done += row;
      if (bursts.isStopped) return;
      if (row > 0) continue;
      if (bursts.isStepDue) this.step();
      else if (this.isStepwise) bursts.goOne(this.isQuiet);
      else bursts.jump(Math.max(train.at + 1, last));
      if (bursts.isStepDue && bursts.dueAt.isBefore(horizon)) this.step();
      if (bursts.isStopped || this.mustYield) return;
      if (this.isQuiet && !bursts.isStepDue && train.at < last) continue;
      this.settleNext();
      if (!nextBurst.isBefore(horizon)) return;
      last = train.lastBefore(horizon);
    }
  }

  private tickOnItsOwn(own: OwnTicks, horizon: Instant): void {
    for (let i = 0; i < actsAtOnce; i++) {
      if (this.recording === "lazy") own.passTo(earlier(horizon, this.output.wake));
      own.tick();
      if (this.bursts.isStopped || !own.next.isBefore(horizon)) return;
    }
  }

  private step(): void {
    this.bursts.endSilence();
    if (!this.isQuiet) {
      if (this.isOnItsOwn) this.giveWay();
      this.chooseGait();
    }
    this.bursts.count();
  }

  /** The drive has another rate or amplitude, or is back at what was set. */
  private change({ kind }: ChainDisturbance, at: Instant): void {
    const { state, train, line, output } = this;
    if (kind === "drive_rate") {
      output.note(mark.driveRate);
      train.passSilence(this.simulator.now);
      line.switchPeriod(at, train.at + 1, state.period(this.setPeriod));
    } else if (kind === "amplitude") {
      output.note(mark.amplitude);
    }
    train.adapt(state.amplitudeFactor);
  }

  /** Decides whether each burst is looked at, and whether the watchdog has to watch. */
  private chooseGait(): void {
    const { state, line, train, dial } = this;
    const isSure = state.isOn && this.isSure(state.amplitudeFactor, line.grid.period);
    const wasStepwise = this.isStepwise;
    this.isQuiet = isSure && !dial.isUnsettled && this.approached === 0 && !this.isOnItsOwn;
    this.isStepwise = this.recording === "bursts" || !this.isQuiet || !train.leavesNothing;
    if (this.isQuiet) {
      this.disarm();
    } else {
      if (!wasStepwise) this.bursts.catchUp();
      this.arm();
    }
    this.settleNext();
  }

  /** Watches for silence from now on. */
  private arm(): void {
    if (this.own === null || this.watch !== null || this.isOnItsOwn) return;
    const { simulator } = this;
    const deadline = this.bursts.silenceEnd(this.after, new Instant());
    if (deadline.isBefore(simulator.now)) deadline.copy(simulator.now);
    this.watch = simulator.schedule(deadline, priority.watchdog, () => this.look());
  }

  private disarm(): void {
    if (this.watch !== null) this.watch.isCancelled = true;
    this.watch = null;
  }

  /** The watchdog looks: was there a step since it was armed? */
  private look(): void {
    const { now } = this.simulator;
    this.watch = null;
    if (now.isBefore(this.bursts.silenceEnd(this.after, new Instant()))) {
      this.arm();
      return;
    }
    this.isOnItsOwn = true;
    this.dial.unsettle("fallback");
    this.own!.begin(now, this.dial.since(now.toSeconds()));
    this.settleNext();
  }

  /** The first good burst: the drive has the clock again. */
  private giveWay(): void {
    this.isOnItsOwn = false;
    this.dial.resumeFrom(this.own!.lastNominal);
    this.mustYield = true;
    this.arm();
  }

  /** When the next burst or its step comes, and when anything does. */
  private settleNext(): void {
    const { next, nextBurst, bursts, own } = this;
    if (bursts.isStepDue) nextBurst.copy(bursts.dueAt);
    else if (this.state.isOn) this.train.expect(1, nextBurst);
    else nextBurst.setNever();
    next.copy(nextBurst);
    if (own !== null && this.isOnItsOwn) next.copy(earlier(nextBurst, own.next));
  }
}

/** The earlier of two moments, the first if they are the same. */
const earlier = (a: Instant, b: Instant): Instant => (b.isBefore(a) ? b : a);
