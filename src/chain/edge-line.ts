import type { Edge } from "../kernel/edge.ts";
import { Instant } from "../numeric/instant.ts";
import type { Oscillator } from "../oscillator/oscillator.ts";
import { rmsJitter } from "../synthesizer/rms-jitter.ts";
import type { Synthesizer } from "../synthesizer/synthesizer.ts";
import { EdgeGrid } from "./edge-grid.ts";
import { strayOver, surelyWithin } from "./stray.ts";

/** A stage that can be asked for its edge n, any n beyond the last one asked, and jumps there. */
export interface EdgeLine {
  readonly grid: EdgeGrid;
  /** Number of the edge last asked for. */
  readonly at: number;
  /** Its nominal time; s. */
  readonly nominal: number;
  /** Moves to edge n and writes it; `n` must lie beyond the edge last asked for. */
  advanceTo(n: number, edge: Edge): void;
  /** The first edge that may fall, or be followed within `delay` by what it causes, at or after a moment. */
  firstPossible(moment: Instant, delay: number): number;
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

  abstract advanceTo(n: number, edge: Edge): void;
  abstract writeTruth(nominal: number, edge: Edge): void;

  firstPossible(moment: Instant, delay: number): number {
    if (moment.whole === Number.POSITIVE_INFINITY) return Number.POSITIVE_INFINITY;
    const { reference, shifted } = this;
    const seconds = moment.toSeconds();
    const gap = Math.max(0, seconds - this.nominal);
    const reach = 2 * this.jitterReach + strayOver(reference.parameters.noise, gap, this.length);
    shifted.copy(moment);
    shifted.add(reference.variableTimeError(seconds) + this.noiseError - reach - delay);
    return this.grid.firstFrom(shifted);
  }

  /** Moves the counters of the line to edge n and returns the step of nominal time. */
  protected moveTo(n: number): number {
    const lapse = this.grid.lapse(this.at, this.nominal, n);
    this.at = n;
    this.nominal = this.grid.nominal(n);
    return lapse;
  }
}

/** Edges of the reference oscillator, divided down to any rate. */
export class ReferenceLine extends GridLine {
  /**
   * @param reference - the oscillator
   * @param hz - nominal rate of the divided edges; Hz, > 0
   * @param length - length of the run; s
   */
  constructor(reference: Oscillator, hz: number, length: number) {
    super(reference, hz, surelyWithin * edgeRms(reference), length);
  }

  advanceTo(n: number, edge: Edge): void {
    const { reference, grid } = this;
    const lapse = this.moveTo(n);
    reference.advance(lapse);
    const variable = reference.variableTimeError(this.nominal);
    const jitter = reference.edgeNoise();
    this.noiseError = reference.accumulated + jitter;
    grid.moment(n, edge.instant);
    edge.instant.add(-variable - this.noiseError);
    this.writeErrors(this.nominal, variable, edge);
    edge.referenceError += jitter;
    edge.lapse = lapse;
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
  /** Time error of the edge last asked for against the rate asked for, all causes; s. */
  timeError = 0;
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

  advanceTo(n: number, edge: Edge): void {
    const { reference, synthesizer, grid } = this;
    const lapse = this.moveTo(n);
    reference.advance(lapse);
    synthesizer.follow(lapse);
    const variable = reference.variableTimeError(this.nominal);
    this.noiseError = synthesizer.timeError(this.nominal) + synthesizer.edgeDeviate();
    grid.moment(n, edge.instant);
    edge.instant.add(-variable - this.noiseError);
    this.writeErrors(this.nominal, variable, edge);
    this.timeError = edge.steadyError + this.noiseError;
    edge.lapse = lapse;
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

/** Rms of what makes an edge stray from the smooth course of its oscillator, the whole flicker ladder in it; s. */
function edgeRms(reference: Oscillator): number {
  const { edgeRms, levels } = reference.noise;
  const ladder = 60;
  return Math.sqrt(edgeRms * edgeRms + (ladder * levels.h1) / (4 * Math.PI * Math.PI));
}
