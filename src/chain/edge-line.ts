import type { Edge } from "../kernel/edge.ts";
import { Instant } from "../numeric/instant.ts";
import type { Oscillator } from "../oscillator/oscillator.ts";
import { rmsJitter } from "../synthesizer/rms-jitter.ts";
import type { Synthesizer } from "../synthesizer/synthesizer.ts";
import { EdgeGrid } from "./edge-grid.ts";
import { edgeStray, strayOver, surelyWithin } from "./stray.ts";

/** A stage that can be asked for its edge n, any n beyond the last one asked, and jumps there. */
export interface EdgeLine {
  readonly grid: EdgeGrid;
  /** Number of the edge last asked for. */
  readonly at: number;
  /** Its nominal time; s. */
  readonly nominal: number;
  /** Moves to edge n and writes it; `n` must lie beyond the edge last asked for. */
  advanceTo(n: number, edge: Edge): void;
  /** Moves to edge n and sets its moment, without its truth: not every edge is handed on. */
  moveOn(n: number, instant: Instant): void;
  /** Writes the truth of the edge last asked for. */
  describe(edge: Edge): void;
  /** The first edge that may fall, or be followed within `delay` by what it causes, at or after a moment. */
  firstPossible(moment: Instant, delay: number): number;
  /** Sets `out` to the moment at which edge n is to be expected, but for jitter. */
  expect(n: number, out: Instant): void;
  /** The first edge to be expected at or after a moment of true time (Infinity for never). */
  firstExpected(moment: Instant): number;
  /** Switches to another period at a moment of true time, before edge `next`; the phase goes on. */
  switchPeriod(at: Instant, next: number, period: number): void;
  /** Sets the deterministic and accumulated errors of an edge from its nominal time. */
  writeTruth(nominal: number, edge: Edge): void;
}

/** What the lines of reference and synthesizer share: the grid and how far edges stray from it. */
abstract class GridLine implements EdgeLine {
  readonly grid: EdgeGrid;
  at = 0;
  nominal = 0;
  /** Random part of the time error of the edge last asked for; s. */
  protected noiseError = 0;
  /** Deterministic part of that edge, less the steady slope's; s. */
  protected variable = 0;
  /** Nominal time from the edge before it; s. */
  protected lapse = 0;
  /** Deterministic part, less the steady slope's, where the line stands or was last aimed at; s. */
  private variableError = 0;
  /** The moment last looked up on the grid, and that error there. */
  private readonly aim = new Instant();
  private errorAtAim = 0;
  protected readonly reference: Oscillator;
  private readonly jitterReach: number;
  private readonly length: number;
  private readonly shifted = new Instant();

  constructor(reference: Oscillator, hz: number, jitterReach: number, length: number) {
    this.reference = reference;
    this.grid = new EdgeGrid(1 / hz, reference.steadySlope);
    this.jitterReach = jitterReach;
    this.length = length;
  }

  abstract moveOn(n: number, instant: Instant): void;
  abstract describe(edge: Edge): void;
  abstract writeTruth(nominal: number, edge: Edge): void;

  advanceTo(n: number, edge: Edge): void {
    this.moveOn(n, edge.instant);
    this.describe(edge);
  }

  firstPossible(moment: Instant, delay: number): number {
    if (moment.whole === Number.POSITIVE_INFINITY) return Number.POSITIVE_INFINITY;
    const { reference, shifted } = this;
    const nominal = this.nominalAt(moment);
    const gap = Math.max(0, nominal - this.nominal);
    const reach = 2 * this.jitterReach + strayOver(reference.parameters.noise, gap, this.length);
    shifted.copy(moment);
    shifted.add(reference.variableTimeError(nominal) + this.noiseError - reach - delay);
    return this.grid.firstFrom(shifted);
  }

  expect(n: number, out: Instant): void {
    this.grid.moment(n, out);
    out.add(-this.variableError - this.reference.accumulated);
  }

  firstExpected(moment: Instant): number {
    if (moment.whole === Number.POSITIVE_INFINITY) return Number.POSITIVE_INFINITY;
    return this.grid.firstFrom(this.onGrid(moment));
  }

  switchPeriod(at: Instant, next: number, period: number): void {
    this.grid.switchPeriod(this.onGrid(at), next, period);
  }

  /** Where a moment lies on the grid, which ageing, temperature and frequency noise leave behind. */
  private onGrid(moment: Instant): Instant {
    // A process asks about one horizon again and again.
    if (this.aim.compare(moment) !== 0) {
      this.aim.copy(moment);
      this.errorAtAim = this.reference.variableTimeError(this.nominalAt(moment));
    }
    this.variableError = this.errorAtAim;
    this.shifted.copy(moment);
    return this.shifted.add(this.variableError + this.reference.accumulated);
  }

  /** Nominal time at a moment, but for noise and what varies; s. */
  private nominalAt(moment: Instant): number {
    return moment.toSeconds() / (1 - this.reference.steadySlope);
  }

  /** Moves the counters of the line to edge n and returns the step of nominal time. */
  protected moveTo(n: number): number {
    const lapse = this.grid.lapse(this.at, this.nominal, n);
    this.at = n;
    this.nominal = this.grid.nominal(n);
    return lapse;
  }

  /** Deterministic time error of the edge asked for, less the steady slope's part; s. */
  protected variableHere(): number {
    this.variableError = this.reference.variableTimeError(this.nominal);
    return this.variableError;
  }
}

/** Edges of the reference oscillator, divided down to any rate. */
export class ReferenceLine extends GridLine {
  /** Independent noise of the edge last asked for; s. */
  private jitter = 0;

  /**
   * @param reference - the oscillator
   * @param hz - nominal rate of the divided edges; Hz, > 0
   * @param length - length of the run; s
   */
  constructor(reference: Oscillator, hz: number, length: number) {
    super(reference, hz, edgeStray(reference.noise.levels), length);
  }

  moveOn(n: number, instant: Instant): void {
    const { reference, grid } = this;
    this.lapse = this.moveTo(n);
    reference.advance(this.lapse);
    this.variable = this.variableHere();
    this.jitter = reference.edgeNoise();
    this.noiseError = reference.accumulated + this.jitter;
    grid.moment(n, instant);
    instant.add(-this.variable - this.noiseError);
  }

  describe(edge: Edge): void {
    this.writeErrors(this.nominal, this.variable, edge);
    edge.referenceError += this.jitter;
    edge.lapse = this.lapse;
  }

  writeTruth(nominal: number, edge: Edge): void {
    this.writeErrors(nominal, this.reference.variableTimeError(nominal), edge);
  }

  private writeErrors(nominal: number, variable: number, edge: Edge): void {
    const { reference } = this;
    edge.nominal = nominal;
    edge.steadyError = reference.steadySlope * nominal + variable;
    edge.referenceError = edge.steadyError + reference.accumulated;
    edge.errorOverRun = edge.referenceError;
    edge.settingError = 0;
  }
}

/** Edges of the synthesizer, which follows the reference. */
export class SynthesizerLine extends GridLine {
  private readonly synthesizer: Synthesizer;
  /** Set rate over the rate that would be right, less one. */
  private readonly settingError: number;

  /**
   * @param reference - the oscillator
   * @param synthesizer - the loop, listening to that oscillator's noise
   * @param nominalHz - the rate that would be right; Hz
   * @param length - length of the run; s
   */
  constructor(reference: Oscillator, synthesizer: Synthesizer, nominalHz: number, length: number) {
    const jitter = rmsJitter(synthesizer.parameters, reference.parameters.noise).total;
    super(reference, synthesizer.setHz, surelyWithin * jitter, length);
    this.synthesizer = synthesizer;
    this.settingError = (synthesizer.setHz - nominalHz) / nominalHz;
  }

  /** Time error of the edge last asked for against the rate asked for, all causes; s. */
  get timeError(): number {
    const steady = this.reference.steadySlope * this.nominal + this.variable;
    return steady + this.settingError * this.nominal + this.noiseError;
  }

  moveOn(n: number, instant: Instant): void {
    const { reference, synthesizer, grid } = this;
    this.lapse = this.moveTo(n);
    reference.advance(this.lapse);
    synthesizer.follow(this.lapse);
    this.variable = this.variableHere();
    this.noiseError = synthesizer.timeError(this.nominal) + synthesizer.edgeDeviate();
    grid.moment(n, instant);
    instant.add(-this.variable - this.noiseError);
  }

  describe(edge: Edge): void {
    this.writeErrors(this.nominal, this.variable, edge);
    edge.lapse = this.lapse;
  }

  writeTruth(nominal: number, edge: Edge): void {
    this.writeErrors(nominal, this.reference.variableTimeError(nominal), edge);
  }

  private writeErrors(nominal: number, variable: number, edge: Edge): void {
    const { reference } = this;
    const steady = reference.steadySlope * nominal + variable;
    const setting = this.settingError * nominal;
    edge.nominal = nominal;
    edge.referenceError = steady + reference.accumulated;
    edge.steadyError = steady + setting;
    edge.errorOverRun = edge.referenceError + setting;
    edge.settingError = setting;
  }
}
