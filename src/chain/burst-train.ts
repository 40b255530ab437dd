import { binomial, Instant, RandomStream } from "../numeric/index.ts";
import type { Scenario } from "../scenario/index.ts";
import { BurstDrive } from "../stages/drive/index.ts";
import { BurstDetector } from "../stages/receiver/index.ts";
import type { SynthesizerLine } from "./edge-line.ts";
import { LawfulDelays } from "./lawful-delays.ts";
import { outcome } from "./sinks.ts";
import type { SpeedDevices } from "./speed-devices.ts";

/** Bursts that go through the stages together, at most. */
const rowLength = 64;

/** The bursts that the synthesizer's edges open, in order, and what the receiver makes of each that is looked at. */
export class BurstTrain {
  /** Start of the burst last looked at. */
  readonly start = new Instant();
  /** Starts and delays of the bursts of the last row; s. */
  readonly delays = new Float64Array(rowLength);
  private readonly phases = new Float64Array(rowLength);
  private last = 0;
  private became: number = outcome.step;
  /** The last burst that was detected, or after which the silence went on. */
  private detected = -1;
  private readonly detectedEnd = new Instant();
  private isForgotten = false;
  private amplitudeFactor = 1;
  private readonly line: SynthesizerLine;
  private readonly drive: BurstDrive;
  private readonly detector: BurstDetector;
  private readonly lawful: LawfulDelays | null;
  private readonly burst: number;
  private readonly dropProbability: number;
  private readonly dropStream: RandomStream;
  private readonly hasRows: boolean;

  /**
   * @param scenario - a scenario with drive and receiver
   * @param line - the edges that open the bursts
   * @param seed - of the run
   * @param devices - which of the devices for speed are used
   */
  constructor(scenario: Scenario, line: SynthesizerLine, seed: string, devices: SpeedDevices) {
    const drive = scenario.drive!;
    const receiver = scenario.receiver!;
    const received = new RandomStream(seed, "receiver");
    this.line = line;
    this.drive = new BurstDrive(drive, new RandomStream(seed, "drive"));
    this.detector = new BurstDetector(receiver, drive, received);
    this.lawful = devices.delayLaw ? new LawfulDelays(receiver, drive, received) : null;
    this.burst = drive.burst;
    this.dropProbability = drive.dropProbability;
    this.dropStream = new RandomStream(seed, "drive/drops");
    this.hasRows = devices.rows && drive.dropProbability === 0;
    this.adapt(1);
  }

  /** Number of the burst come to. */
  get at(): number {
    return this.last;
  }

  /** What became of the burst come to. */
  get outcome(): number {
    return this.became;
  }

  /** Whether what a burst leaves behind has vanished before the next, so that bursts can be passed over. */
  get leavesNothing(): boolean {
    return this.isForgotten;
  }

  /** Whether the burst come to was passed over, or its delay drawn by its law. */
  get isUndetected(): boolean {
    return this.last > this.detected;
  }

  /** After the period between bursts or their amplitude has changed. */
  adapt(amplitudeFactor: number): void {
    const { period } = this.line.grid;
    this.amplitudeFactor = amplitudeFactor;
    this.isForgotten = this.detector.burstsToForget(period, amplitudeFactor) === 0;
  }

  /** Sets `out` to the moment at which the burst come to is to be expected, but for jitter, or one after it. */
  expect(after: 0 | 1, out: Instant): void {
    this.line.expect(this.last + after, out);
  }

  /** The last burst to be expected before a moment. */
  lastBefore(moment: Instant): number {
    return this.line.firstExpected(moment) - 1;
  }

  /** The last burst whose step cannot come at or after a moment. */
  lastIdle(moment: Instant): number {
    return this.line.firstPossible(moment, this.burst) - 1;
  }

  /** Goes on in silence, in which the charge goes on decaying, over the bursts that do not arrive before a moment. */
  passSilence(moment: Instant): void {
    this.goSilently(Math.max(this.last, this.lastBefore(moment)));
  }

  private goSilently(to: number): void {
    if (this.detected === this.last) this.detected = to;
    this.last = to;
  }

  /**
   * Passes over bursts, the last of which may be looked at if all arrived.
   *
   * @returns how many were dropped
   */
  pass(bursts: number): number {
    this.last += bursts;
    return this.dropProbability === 0 ? 0 : binomial(this.dropStream, bursts, this.dropProbability);
  }

  /** Goes on to the next burst, which may be dropped. Returns its delay as `look` does. */
  goOn(isSure: boolean): number {
    if (this.drive.drawDrop()) {
      this.goSilently(this.last + 1);
      this.line.moveOn(this.last, this.start);
      this.became = outcome.dropped;
      return Number.NaN;
    }
    this.last++;
    return this.look(isSure);
  }

  /**
   * Looks at the burst come to.
   *
   * @param isSure - whether it is sure to make its step
   * @returns time from its start to its step; s, NaN where there is none
   */
  look(isSure: boolean): number {
    const { line, drive, detector, start } = this;
    line.moveOn(this.last, start);
    const phase = drive.phaseAt(start);
    const sampler = isSure && this.isPlain ? (this.lawful?.next() ?? null) : null;
    if (sampler !== null) {
      this.became = outcome.step;
      return sampler.drawOne(phase);
    }
    if (this.last === this.detected + 1) detector.rest(start.minus(this.detectedEnd));
    else detector.begin();
    this.detected = this.last;
    this.detectedEnd.copy(start).add(this.burst);
    const delay = detector.detect(phase, drive.drawAmplitude() * this.amplitudeFactor);
    this.became = detector.outcome;
    return delay;
  }

  /**
   * Goes through a row of bursts, each sure to be a step whose delay is drawn by its law: each stage does its part for
   * the whole row. Starts are then in the row of the line, delays in `delays`.
   *
   * @param stride - from one to the next
   * @param last - the last burst that may be among them
   * @returns how many they were; 0 where bursts have to be gone through one by one
   */
  goInRow(stride: number, last: number): number {
    const { line, drive, phases, delays } = this;
    const sampler = this.lawful?.sampler;
    if (!sampler || !this.hasRows || !this.isPlain) return 0;
    const bursts = Math.min(rowLength, Math.floor((last - this.last) / stride));
    if (bursts < 1 || line.at !== this.last || !line.grid.isEvenFrom(this.last)) return 0;
    const { row } = line;
    line.moveAlong(stride, bursts);
    drive.phases(row.wholes, row.fractions, bursts, phases);
    sampler.draw(phases, bursts, delays);
    this.last += stride * bursts;
    return bursts;
  }

  /** Whether the tone is as it was set, and nothing before bears on a burst: then its delay has a law. */
  private get isPlain(): boolean {
    return this.isForgotten && this.amplitudeFactor === 1;
  }
}
