import { exp } from "../../numeric/index.ts";
import type { EnvelopePiece } from "./burst-charge.ts";
import type { DetectorState, Stretch } from "./detector-state.ts";
import type { Deviates } from "./deviates.ts";
import { firstTouch, staysApart } from "./first-touch.ts";
import type { RectifiedTone } from "./rectified-tone.ts";

/** Standard deviations between the mean path and the threshold that count as out of reach: 7e-16 a time constant. */
export const outOfReach = 8.5;

/** Halvings until nothing is left of a bracket in a cell. */
const halvings = 48;

/**
 * A piece of the envelope, level or sloped, cell by cell: u at the end of a cell by its exact law, and between the ends
 * the touch of a Brownian bridge, the threshold being straight in a cell to its sight; in longer steps as long as the
 * threshold is out of reach.
 *
 * Source: exact transition of the Ornstein-Uhlenbeck process; bridge: see `firstTouch`.
 */
export class PlainStretch implements Stretch {
  private readonly piece: EnvelopePiece;
  private readonly tone: RectifiedTone;
  private readonly threshold: number;
  private readonly state: DetectorState;
  private readonly deviates: Deviates;
  /** τL'. */
  private readonly slope: number;
  private readonly cell: number;
  private readonly swing: number;
  /** Longest power of two of cells in the piece. */
  private readonly longest: number;
  /** Where in its period the tone stands at the start; periods. */
  private start = 0;

  /**
   * @param piece - the piece
   * @param tone - the rectified tone
   * @param threshold - V
   * @param cells - cells in a period of the rectified tone
   * @param state - charge and noise, which it moves on
   * @param deviates - deviates
   */
  constructor(
    piece: EnvelopePiece,
    tone: RectifiedTone,
    threshold: number,
    cells: number,
    state: DetectorState,
    deviates: Deviates,
  ) {
    this.piece = piece;
    this.tone = tone;
    this.threshold = threshold;
    this.state = state;
    this.deviates = deviates;
    this.swing = tone.swing[0] + tone.swing[1];
    this.slope = piece.slope * tone.integrator.timeConstant;
    this.cell = tone.period / cells;
    let longest = this.cell;
    while (2 * longest <= piece.length) longest *= 2;
    this.longest = longest;
  }

  pass(phaseTurns: number, amplitude: number): void {
    this.start = phaseTurns * this.tone.periodsPerCycle;
    this.move(0, this.piece.length, amplitude * this.tone.integrator.gain);
  }

  cross(phaseTurns: number, amplitude: number): number {
    this.start = phaseTurns * this.tone.periodsPerCycle;
    const { state, deviates, threshold } = this;
    const { length } = this.piece;
    const { noise, gain, timeConstant } = this.tone.integrator;
    const driven = amplitude * gain;
    const kept = exp(-this.cell / timeConstant);
    // A step of two cells is worth trying from so far below the threshold.
    const away =
      driven * this.swing + outOfReach * noise * Math.sqrt(1 - kept * kept * kept * kept);
    let span = this.longest;
    let time = 0;
    while (time < length) {
      if (span > this.cell) {
        if (time + span <= length && this.isOutOfReach(time, span, driven)) {
          this.move(time, span, driven);
          time += span;
          span = Math.min(2 * span, this.longest);
        } else span /= 2;
        continue;
      }
      const isWhole = time + this.cell < length;
      const step = isWhole ? this.cell : length - time;
      const decay = isWhole ? kept : exp(-step / timeConstant);
      if (state.variance > 0) state.mean += noise * Math.sqrt(state.variance) * deviates.normal();
      state.variance = 0;
      const above = state.mean - driven * this.steady(time);
      const spread = noise * Math.sqrt(1 - decay * decay);
      let end = above * decay + driven * this.steady(time + step);
      if (noise > 0) end += spread * deviates.normal();
      const near = threshold - state.mean;
      const far = threshold - end;
      const after =
        noise > 0
          ? this.touchIn(step, near, far / decay, spread / decay)
          : this.quietCrossing(time, step, above, far, driven);
      if (after >= 0) {
        state.mean = threshold;
        this.move(time + after, length - time - after, driven);
        return time + after;
      }
      state.mean = end;
      time += step;
      if (far > away) span = 2 * this.cell;
    }
    return Number.NaN;
  }

  /** When in a cell a bridge first touches the threshold, at these distances in the growing frame; NaN for never. */
  private touchIn(step: number, near: number, far: number, spread: number): number {
    const power = spread * spread;
    if (near > 0 && far > 0 && staysApart(2 * near * far, power, this.deviates)) return Number.NaN;
    return near > 0 ? step * firstTouch(near, far, power, this.deviates) : 0;
  }

  /** The same without noise, where u is `above` its steady part at the start of the cell and `far` below θ at its end. */
  private quietCrossing(
    time: number,
    step: number,
    above: number,
    far: number,
    driven: number,
  ): number {
    const { timeConstant } = this.tone.integrator;
    const charge = (after: number) =>
      above * exp(-after / timeConstant) + driven * this.steady(time + after);
    let high = step;
    if (far > 0) {
      // A crest in the cell may reach higher than its ends: u rises while the tone is above it.
      const rises = (after: number) => driven * this.toneAt(time + after) > charge(after);
      if (rises(step) || !rises(0)) return Number.NaN;
      high = lastTrue(rises, step);
      if (charge(high) < this.threshold) return Number.NaN;
    }
    return lastTrue((after) => charge(after) < this.threshold, high);
  }

  /** Whether nothing can cross from `time` on for so long: were the level even, at its highest, the mean would go to one side. */
  private isOutOfReach(time: number, span: number, driven: number): boolean {
    const { mean, variance } = this.state;
    const { timeConstant, noise } = this.tone.integrator;
    const decay = exp(-span / timeConstant);
    const { level, slope } = this.piece;
    const most = driven * (level + slope * (slope < 0 ? time : time + span));
    const settled = most * this.tone.mean;
    const highest = Math.max(mean, settled + (mean - settled) * decay) + most * this.swing;
    const kept = variance > 1 ? 1 : decay;
    const spread = noise * Math.sqrt(1 + (variance - 1) * kept * kept);
    return highest + outOfReach * spread < this.threshold;
  }

  private move(time: number, span: number, driven: number): void {
    const before = driven * this.steady(time);
    this.state.mean -= before;
    this.state.pass(span, driven * this.steady(time + span));
  }

  private steady(time: number): number {
    const { piece, tone } = this;
    return tone.steady(this.positionAt(time), piece.level + piece.slope * time, this.slope);
  }

  private toneAt(time: number): number {
    return (this.piece.level + this.piece.slope * time) * this.tone.drive(this.positionAt(time));
  }

  private positionAt(time: number): number {
    const position = this.start + time / this.tone.period;
    return position - Math.floor(position);
  }
}

/** The largest number up to `high` for which something holds that holds at 0 and not beyond some place. */
function lastTrue(holds: (x: number) => boolean, high: number): number {
  let low = 0;
  for (let i = 0; i < halvings; i++) {
    const middle = 0.5 * (low + high);
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return high;
}
