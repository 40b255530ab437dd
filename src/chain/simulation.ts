import { Edge, Simulator } from "../kernel/index.ts";
import { Instant, RandomStream } from "../numeric/index.ts";
import {
  type Disturbance,
  nominalPeriod,
  type Recording,
  type Scenario,
} from "../scenario/index.ts";
import type { Counter, Reading } from "../stages/counter/index.ts";
import type { Oscillator } from "../stages/oscillator/index.ts";
import { buildCounter } from "./build-counter.ts";
import { buildReferenceLine, buildSynthesizerLine } from "./build-lines.ts";
import { BurstClock } from "./burst-clock.ts";
import { LineProcess } from "./line-process.ts";
import { LineSource } from "./line-source.ts";
import { burstsOfApproach, priority } from "./priority.ts";
import { requireRun } from "./require-run.ts";
import type { Sinks } from "./sinks.ts";
import { SlipRecord } from "./slips.ts";
import type { Source } from "./source.ts";
import { allDevices, type SpeedDevices } from "./speed-devices.ts";
import { TickOutput } from "./tick-output.ts";

/** What a run needs beside its scenario. */
export interface RunOptions {
  /** Seed of all random streams; any text. */
  readonly seed: string;
  /** Simulated length; s, > 0. */
  readonly length: number;
  /** Whether `length` ends the run; else it goes on until `readings` are there. */
  readonly endsAtLength: boolean;
  /** Readings after which the run ends; integer >= 1, or null. */
  readonly readings: number | null;
  /** Which edges are computed. */
  readonly recording: Recording;
  /** Devices for speed that are not to be used; all are by default. */
  readonly devices?: Partial<SpeedDevices>;
}

/**
 * One run of a scenario: builds the chain, lets it go in slices, and tells what became of it.
 *
 * Readings, ticks and bursts go to the sinks as they are computed; nothing of them is kept here.
 */
export class Simulation {
  readonly slips = new SlipRecord();
  /** Readings given so far. */
  readings = 0;
  private readonly simulator = new Simulator();
  private readonly watched: Source;
  /** The clock, where the counter watches another stage: it runs by itself, so that its ticks stay what they are. */
  private readonly unwatched: { readonly source: Source; readonly simulator: Simulator } | null;
  private readonly counter: Counter;
  private readonly end = new Edge();
  private hasEnded = false;
  private readonly scenario: Scenario;
  private readonly options: RunOptions;
  private readonly devices: SpeedDevices;
  private readonly sinks: Sinks;

  /**
   * @param scenario - the scenario
   * @param options - seed, length and recording mode, all resolved
   * @param sinks - take what is computed
   * @throws RangeError if the options are outside their ranges, or would let the run go on for ever
   */
  constructor(scenario: Scenario, options: RunOptions, sinks: Sinks) {
    requireRun("Simulation", options);
    this.scenario = scenario;
    this.options = options;
    this.devices = { ...allDevices, ...options.devices };
    this.sinks = sinks;
    const { input } = scenario.counter;
    this.unwatched = null;
    if (input === "clock") {
      [this.watched, this.counter] = this.buildClock(this.simulator, true);
    } else {
      [this.watched, this.counter] = this.buildWatched(input);
      if (sinks.tick || sinks.burst) {
        const simulator = new Simulator();
        this.unwatched = { source: this.buildClock(simulator, false)[0], simulator };
      }
    }
    this.scheduleDisturbances();
    if (options.endsAtLength) {
      const at = new Instant().set(options.length, 0);
      this.simulator.schedule(beforeEdges(at), priority.end, () => this.finish(at));
      if (this.endsKnown) this.scheduleEndOfUnwatched(at);
    }
  }

  /**
   * Goes on with the run.
   *
   * @param acts - how many acts at most (an act is up to 4096 edges), >= 1; all of them by default
   * @returns true when the run has ended
   * @throws RangeError if `acts` is not >= 1
   */
  run(acts = Number.POSITIVE_INFINITY): boolean {
    if (!(acts >= 1)) throw new RangeError(`Simulation.run: acts must be >= 1, got ${acts}`);
    const isDone = this.simulator.run(acts);
    if (isDone) this.hasEnded = true;
    if (this.unwatched === null) return isDone;
    // Where the readings decide about the end the clock waits until it is known.
    return (isDone || this.endsKnown) && this.unwatched.simulator.run(acts) && isDone;
  }

  /** Whether the moment of the end is known from the start. */
  private get endsKnown(): boolean {
    return this.options.endsAtLength && this.options.readings === null;
  }

  /** True time the run has come to; s. */
  get now(): number {
    return this.simulator.now.toSeconds();
  }

  /** Ticks of the clock (or edges of the stage watched) so far, looked at or not. */
  get ticks(): number {
    return (this.unwatched?.source ?? this.watched).count;
  }

  /** Steps by which slips, fallback and wrong rates have displaced the dial. */
  get displacedSteps(): number {
    return this.slips.total;
  }

  private buildClock(simulator: Simulator, isWatched: boolean): [Source, Counter] {
    const { scenario, options, devices, slips, sinks } = this;
    const { seed, length, recording } = options;
    const { clock } = scenario;
    const period = 1 / clock.tickHz;
    let source: Source;
    let counter: Counter;
    if (scenario.drive === null) {
      const { reference, line } = buildReferenceLine(scenario, clock.tickHz, seed, length, devices);
      counter = this.makeCounter(period, reference);
      const stream = new RandomStream(seed, "clock/bounce");
      const output = new TickOutput(clock, isWatched ? counter : null, sinks, stream);
      const process = new LineProcess(
        line,
        recording === "lazy",
        () => output.wake,
        (count, edge) => {
          output.note(edge.marks);
          output.emit(count, edge);
        },
      );
      simulator.add(process);
      source = new LineSource(line, process, slips, output, simulator.now);
    } else {
      const stepHz = clock.tickHz * clock.stepsPerTick;
      const { reference, line } = buildSynthesizerLine(scenario, stepHz, seed, length, devices);
      counter = this.makeCounter(period, reference);
      source = new BurstClock(scenario, {
        simulator,
        line,
        counter: isWatched ? counter : null,
        sinks,
        slips,
        recording,
        devices,
        seed,
      });
    }
    return [source, counter];
  }

  private buildWatched(input: "synthesizer" | "reference"): [Source, Counter] {
    const { scenario, options, devices, simulator, slips } = this;
    const { seed, length } = options;
    const period = nominalPeriod(scenario);
    const { reference, line } =
      input === "reference"
        ? buildReferenceLine(scenario, 1 / period, seed, length, devices)
        : buildSynthesizerLine(scenario, 1 / period, seed, length, devices);
    const counter = this.makeCounter(period, reference);
    const process = new LineProcess(
      line,
      true,
      () => counter.wake,
      (count, edge) => {
        edge.count = count;
        counter.offer(edge);
      },
    );
    simulator.add(process);
    const source = new LineSource(line, process, slips, null, simulator.now);
    return [source, counter];
  }

  private makeCounter(period: number, reference: Oscillator): Counter {
    const { scenario, devices } = this;
    const { seed, length } = this.options;
    return buildCounter(scenario, { period, reference, seed, length, devices }, (reading) =>
      this.take(reading),
    );
  }

  private take(reading: Reading): void {
    if (this.hasEnded) return;
    this.readings++;
    this.sinks.reading?.(reading);
    if (this.readings === this.options.readings) this.stop(reading.to.instant);
  }

  private scheduleDisturbances(): void {
    const { scenario, simulator, counter, unwatched } = this;
    const inOrder = [...scenario.disturbances].sort((a, b) => a.at - b.at);
    for (const disturbance of inOrder) {
      const { kind } = disturbance;
      if (kind === "missed_edge" || kind === "extra_edge") {
        const at = beforeEdges(new Instant().set(disturbance.at, 0)).toSeconds();
        counter.plan(at, kind === "missed_edge" ? -1 : 1);
      } else {
        this.scheduleOne(disturbance, this.watched, simulator);
        if (unwatched) this.scheduleOne(disturbance, unwatched.source, unwatched.simulator);
      }
    }
  }

  private scheduleOne(
    disturbance: Exclude<Disturbance, { kind: "missed_edge" | "extra_edge" }>,
    source: Source,
    simulator: Simulator,
  ): void {
    const { synthesizer } = this.scenario;
    const approach = synthesizer === null ? 0 : burstsOfApproach / synthesizer.outputHz;
    const schedule = (at: Instant, order: number, action: () => void) => {
      const before = new Instant().set(Math.max(0, at.toSeconds() - approach), 0);
      simulator.schedule(before, priority.approach, () => source.approach());
      simulator.schedule(beforeEdges(at), order, action);
    };
    const from = new Instant().set(disturbance.at, 0);
    schedule(from, priority.disturbanceStart, () => source.begin(disturbance, from));
    if ("for" in disturbance) {
      const to = new Instant().set(disturbance.at, disturbance.for);
      schedule(to, priority.disturbanceEnd, () => source.end(disturbance, to));
    }
  }

  private finish(at: Instant): void {
    this.end.instant.copy(at);
    this.watched.finish(this.end);
    this.counter.finish(this.end);
    if (!this.hasEnded) this.stop(at);
  }

  private stop(at: Instant): void {
    this.hasEnded = true;
    this.watched.settle(at);
    this.watched.stop();
    this.simulator.stop();
    if (!this.endsKnown) this.scheduleEndOfUnwatched(at);
  }

  private scheduleEndOfUnwatched(at: Instant): void {
    if (this.unwatched === null) return;
    const { source, simulator } = this.unwatched;
    simulator.schedule(beforeEdges(at), priority.end, () => {
      source.settle(at);
      source.stop();
      simulator.stop();
    });
  }
}

/** What a moment and an edge may differ by if they are the same but for rounding: a part of the time since the start. */
const rounding = 1e-15;

/**
 * When what is planned for a moment is done: an edge at that very moment, as written, comes after it, whatever 20.1 + 0.5 is
 * in binary. So a disturbance has the edge at its start and not the one at its end, and a run not the one at its end.
 */
function beforeEdges(at: Instant): Instant {
  const before = new Instant().copy(at).add(-rounding * (1 + at.toSeconds()));
  return before.whole < 0 ? before.set(0, 0) : before;
}
