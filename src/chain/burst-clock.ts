import type { Simulator } from "../kernel/index.ts";
import { type Edge, mark } from "../kernel/index.ts";
import { exponential, Instant, RandomStream } from "../numeric/index.ts";
import type { Recording, Scenario } from "../scenario/index.ts";
import { StepCounter } from "../stages/clock/index.ts";
import type { Counter } from "../stages/counter/index.ts";
import { BurstDrive } from "../stages/drive/index.ts";
import { BurstDetector } from "../stages/receiver/index.ts";
import { ClockProcess } from "./clock-process.ts";
import type { SynthesizerLine } from "./edge-line.ts";
import { FallbackProcess } from "./fallback-process.ts";
import { LawfulDelays } from "./lawful-delays.ts";
import { burstsOfApproach, priority } from "./priority.ts";
import type { Sinks } from "./sinks.ts";
import type { SlipRecord } from "./slips.ts";
import type { ChainDisturbance, Source } from "./source.ts";
import { surenessOf } from "./sureness.ts";
import { TickOutput } from "./tick-output.ts";

/** The clock driven by bursts, with its watchdog, extra steps and disturbances. */
export class BurstClock implements Source {
  private readonly clock: ClockProcess;
  private readonly fallback: FallbackProcess | null;
  private readonly steps: StepCounter;
  private readonly output: TickOutput;
  private readonly extraStream: RandomStream;
  private readonly extraAt = new Instant();
  private readonly isSure: (amplitudeFactor: number, burstPeriod: number) => boolean;
  private offs = 0;
  private approached = 0;
  private readonly rates: { readonly disturbance: ChainDisturbance; readonly hz: number }[] = [];
  private readonly factors: number[] = [];
  private readonly simulator: Simulator;
  private readonly line: SynthesizerLine;
  private readonly recording: Recording;
  private readonly setPeriod: number;

  constructor(
    scenario: Scenario,
    parts: {
      readonly simulator: Simulator;
      readonly line: SynthesizerLine;
      readonly counter: Counter | null;
      readonly sinks: Sinks;
      readonly slips: SlipRecord;
      readonly recording: Recording;
      readonly seed: string;
    },
  ) {
    const { simulator, line, sinks, slips, recording, seed } = parts;
    const drive = scenario.drive!;
    const receiver = scenario.receiver!;
    this.simulator = simulator;
    this.line = line;
    this.recording = recording;
    this.setPeriod = line.grid.period;
    this.isSure = surenessOf(scenario);
    this.steps = new StepCounter(scenario.clock.stepsPerTick);
    const { steps } = this;
    this.output = new TickOutput(
      scenario.clock,
      parts.counter,
      sinks,
      new RandomStream(seed, "clock/bounce"),
    );
    const { output } = this;
    const received = new RandomStream(seed, "receiver");
    const detector = new BurstDetector(receiver, drive, received);
    this.clock = new ClockProcess({
      line,
      drive: new BurstDrive(drive, new RandomStream(seed, "drive")),
      detector,
      lawful: new LawfulDelays(receiver, drive, received),
      steps,
      output,
      slips,
      sinks,
      burst: drive.burst,
      dropProbability: drive.dropProbability,
      dropStream: new RandomStream(seed, "drive/drops"),
      recording,
    });
    const { clock } = this;
    simulator.add(clock);
    this.fallback = null;
    if (scenario.clock.fallback !== null) {
      const stream = new RandomStream(seed, "clock/fallback");
      this.fallback = new FallbackProcess(scenario.clock.fallback, scenario.clock, {
        simulator,
        clock,
        line,
        steps,
        output,
        slips,
        recording,
        stream,
      });
      simulator.add(this.fallback);
    }
    clock.onStep = () => {
      this.fallback?.end();
      this.chooseGait();
    };
    this.extraStream = new RandomStream(seed, "receiver/extra-steps");
    if (receiver.extraStepRateHz > 0) this.scheduleExtraStep(receiver.extraStepRateHz);
    this.chooseGait();
  }

  get count(): number {
    return this.steps.ticks;
  }

  approach(): void {
    this.approached++;
    this.chooseGait();
  }

  begin(disturbance: ChainDisturbance, now: Instant): void {
    const { output } = this;
    this.approached--;
    switch (disturbance.kind) {
      case "drive_off":
        this.offs++;
        break;
      case "drive_rate":
        output.marks |= mark.driveRate;
        this.rates.push({ disturbance, hz: disturbance.outputHz });
        this.setRate(now);
        break;
      case "amplitude":
        output.marks |= mark.amplitude;
        this.factors.push(disturbance.factor);
        this.setAmplitude();
        break;
      case "missed_step":
        this.displaceStep(now, -1);
        break;
      case "extra_step":
        this.displaceStep(now, 1);
        break;
    }
    this.chooseGait();
  }

  end(disturbance: ChainDisturbance, now: Instant): void {
    const { clock, output } = this;
    this.approached--;
    if (disturbance.kind === "drive_off") {
      this.offs--;
      if (this.offs === 0) {
        clock.passSilence(now);
        clock.unsettled ??= "drive_off";
      }
    } else if (disturbance.kind === "drive_rate") {
      output.marks |= mark.driveRate;
      const index = this.rates.findIndex((rate) => rate.disturbance === disturbance);
      this.rates.splice(index, 1);
      clock.unsettled ??= "drive_rate";
      this.setRate(now);
      if (this.offs === 0 && !this.fallback?.isActive) clock.settle(now.toSeconds());
    } else if (disturbance.kind === "amplitude") {
      output.marks |= mark.amplitude;
      this.factors.splice(this.factors.indexOf(disturbance.factor), 1);
      this.setAmplitude();
    }
    this.chooseGait();
  }

  settle(at: Instant): void {
    const { clock, fallback } = this;
    if (fallback?.isActive) {
      fallback.settle();
      return;
    }
    if (this.offs > 0) {
      clock.passSilence(at);
      clock.unsettled ??= "drive_off";
    } else if (this.rates.length > 0) {
      clock.unsettled ??= "drive_rate";
    }
    clock.settle(at.toSeconds());
  }

  finish(edge: Edge): void {
    this.line.writeTruth(edge);
    edge.lapse = Math.max(0, edge.nominal - this.clock.handedOnNominal);
    edge.count = this.output.countAt(this.steps.ticks);
    edge.marks = this.output.marks;
    edge.isFallback = this.fallback?.isActive ?? false;
  }

  stop(): void {
    this.clock.isStopped = true;
    if (this.fallback) this.fallback.isStopped = true;
  }

  /** Decides whether each burst is looked at, and whether the watchdog has to watch. */
  private chooseGait(): void {
    const { clock, fallback, line } = this;
    clock.isDriven = this.offs === 0;
    const isSure = clock.isDriven && this.isSure(clock.amplitudeFactor, line.grid.period);
    const isQuiet =
      isSure && clock.unsettled === null && this.approached === 0 && !fallback?.isActive;
    clock.isQuiet = isQuiet;
    if (!isQuiet) clock.lookCloser();
    clock.isStepwise = this.recording === "bursts" || !isQuiet;
    if (isQuiet) fallback?.disarm();
    else fallback?.arm();
    clock.settleNext();
  }

  private setRate(now: Instant): void {
    const last = this.rates[this.rates.length - 1];
    const period = last === undefined ? this.setPeriod : 1 / last.hz;
    this.clock.passSilence(now);
    this.line.switchPeriod(now, this.clock.nextBurst, period);
    this.clock.settlePeriod();
  }

  private setAmplitude(): void {
    this.clock.amplitudeFactor = this.factors.reduce((product, factor) => product * factor, 1);
    this.clock.settlePeriod();
  }

  private displaceStep(now: Instant, steps: 1 | -1): void {
    const { clock, output } = this;
    output.marks |= mark.slip;
    clock.recordSlip(now.toSeconds(), steps, steps > 0 ? "extra_step" : "missed_step");
    if (steps > 0) clock.extraStep(now);
    else this.steps.steps--;
  }

  private scheduleExtraStep(rate: number): void {
    const { extraAt, simulator } = this;
    extraAt.add(exponential(this.extraStream) / rate);
    const before = new Instant().copy(extraAt).add(-burstsOfApproach * this.setPeriod);
    if (before.isBefore(simulator.now)) before.copy(simulator.now);
    simulator.schedule(before, priority.approach, () => this.approach());
    simulator.schedule(extraAt, priority.extraStep, () => {
      this.approached--;
      this.displaceStep(simulator.now, 1);
      this.scheduleExtraStep(rate);
      this.chooseGait();
    });
  }
}
