import type { Edge } from "../kernel/index.ts";
import { mostSteps } from "../noise/index.ts";
import { Instant } from "../numeric/index.ts";
import type { Oscillator } from "../stages/oscillator/index.ts";
import type { Synthesizer } from "../stages/synthesizer/index.ts";
import { rmsJitter } from "../stages/synthesizer/index.ts";
import { EdgeGrid } from "./edge-grid.ts";
import { EdgeRow } from "./edge-row.ts";
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
  /** Sets the errors of an edge that comes from elsewhere, at its moment; noise as at the edge last asked for. */
  writeTruth(edge: Edge): void;
}

/** What the lines of reference and synthesizer share: the grid and how far edges stray from it. */
abstract class GridLine implements EdgeLine {
  readonly grid: EdgeGrid;
  at = 0;
  nominal = 0;
  /** Random part of the time error of the edge last asked for; s. */
  protected noiseError = 0;
  /** Nominal time from the edge before it; s. */
  protected lapse = 0;
  /** Deterministic part, less the steady slope's, where the line stands or was last aimed at; s. */
  protected variableError = 0;
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
  /** Sets the errors of an edge from its nominal time. */
  protected abstract writeErrorsAt(nominal: number, edge: Edge): void;

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

  writeTruth(edge: Edge): void {
    const moment = edge.instant.toSeconds();
    // Nominal time is true time and the error there: found in two rounds.
    this.writeErrorsAt(moment, edge);
    this.writeErrorsAt(moment + edge.referenceError, edge);
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
}

/** Edges of the reference oscillator, divided down to any rate. */
export class ReferenceLine extends GridLine {
  /** Deterministic part of the edge last asked for, less the steady slope's; s. */
  private variable = 0;
  /** Its independent noise; s. */
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
    this.lapse = grid.lapse(this.at, this.nominal, n);
    this.at = n;
    this.nominal = grid.nominal(n);
    reference.advance(this.lapse);
    this.variable = reference.variableTimeError(this.nominal);
    this.variableError = this.variable;
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

  protected writeErrorsAt(nominal: number, edge: Edge): void {
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
  /** The edges last asked for. */
  readonly row = new EdgeRow(mostSteps);
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

  /** Time error of edge i of the row against the rate asked for, all causes; s. */
  timeErrorAt(i: number): number {
    const { row } = this;
    const nominal = row.nominals[i]!;
    const steady = this.reference.steadySlope * nominal + row.variables[i]!;
    return steady + this.settingError * nominal + row.noiseErrors[i]!;
  }

  /**
   * Moves to the last of several edges at equal distances; all of them are then in `row`.
   *
   * @param stride - from each edge to the next, beginning with the one last asked for
   * @param edges - how many; from 1 to `mostSteps`, and 1 just after the rate was switched (`EdgeGrid.isEvenFrom`)
   */
  moveAlong(stride: number, edges: number): void {
    const { reference, synthesizer, grid, row } = this;
    const first = this.at + stride;
    this.lapse = grid.lapse(this.at, this.nominal, first);
    reference.advance(this.lapse, edges);
    synthesizer.follow(this.lapse);
    row.edges = edges;
    for (let i = 0, n = first; i < edges; i++, n += stride) {
      row.nominals[i] = grid.nominal(n);
    }
    reference.variableTimeErrors(row.nominals, edges, row.variables);
    synthesizer.timeErrors(row.nominals, row.noiseErrors);
    grid.moments(first, stride, row);
    const last = edges - 1;
    this.at = first + last * stride;
    this.nominal = row.nominals[last]!;
    this.variableError = row.variables[last]!;
    this.noiseError = row.noiseErrors[last]!;
  }

  moveOn(n: number, instant: Instant): void {
    this.moveAlong(n - this.at, 1);
    this.row.moment(0, instant);
  }

  describe(edge: Edge): void {
    this.describeAt(this.row.edges - 1, edge);
  }

  /** Writes the truth of edge i of the row. */
  describeAt(i: number, edge: Edge): void {
    const { row } = this;
    const { accumulated } = this.reference.noise.path;
    this.writeErrors(row.nominals[i]!, row.variables[i]!, accumulated[i]!, edge);
    edge.lapse = this.lapse;
  }

  protected writeErrorsAt(nominal: number, edge: Edge): void {
    const { reference } = this;
    const variable = reference.variableTimeError(nominal);
    this.writeErrors(nominal, variable, reference.accumulated, edge);
  }

  private writeErrors(nominal: number, variable: number, accumulated: number, edge: Edge): void {
    const steady = this.reference.steadySlope * nominal + variable;
    const setting = this.settingError * nominal;
    edge.nominal = nominal;
    edge.referenceError = steady + accumulated;
    edge.steadyError = steady + setting;
    edge.errorOverRun = edge.referenceError + setting;
    edge.settingError = setting;
  }
}
