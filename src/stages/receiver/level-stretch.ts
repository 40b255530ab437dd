import { log1p } from "../../numeric/index.ts";
import type { BoundaryTree } from "./boundary-tree.ts";
import {
  amplitudeAt,
  BridgeCrossing,
  fromClock,
  fromValue,
  toClock,
  toValue,
} from "./bridge-crossing.ts";
import type { EnvelopePiece } from "./burst-charge.ts";
import { BurstFrame } from "./burst-frame.ts";
import type { DetectorState, Stretch } from "./detector-state.ts";
import type { Deviates } from "./deviates.ts";
import { MeanPath } from "./mean-path.ts";
import type { RectifiedTone } from "./rectified-tone.ts";

/** Standard deviations of room that make a step over whole periods worth while. */
const room = 2;

/**
 * A piece of the envelope of one level, with noise, at speed: one jump over the periods in which a crossing has a
 * probability below 1e-12 (`MeanPath`), then a Gaussian deviate for every few periods, each stretch searched for a
 * crossing by `BridgeCrossing`. What is left of error is the straightness of cells, 20 ns in a random direction
 * (`treeShape`), and what the jump neglects. `PlainStretch` is what tests hold it to.
 */
export class LevelStretch implements Stretch {
  private readonly tone: RectifiedTone;
  private readonly tree: BoundaryTree;
  private readonly threshold: number;
  private readonly state: DetectorState;
  private readonly deviates: Deviates;
  private readonly noise: number;
  /** Level times gain. */
  private readonly level: number;
  private readonly frame: BurstFrame;
  private readonly path: MeanPath;
  private readonly crossing: BridgeCrossing;
  private readonly piece: Float64Array;

  /**
   * @param piece - the piece of the envelope
   * @param tree - the threshold as the rectified tone's noise sees it
   * @param tone - the rectified tone, with noise
   * @param threshold - V
   * @param amplitude - usual amplitude of the tone, for speed only; V
   * @param state - charge and noise, which it moves on
   * @param deviates - deviates
   */
  constructor(
    piece: EnvelopePiece,
    tree: BoundaryTree,
    tone: RectifiedTone,
    threshold: number,
    amplitude: number,
    state: DetectorState,
    deviates: Deviates,
  ) {
    this.tone = tone;
    this.tree = tree;
    this.threshold = threshold;
    this.state = state;
    this.deviates = deviates;
    this.noise = tone.integrator.noise;
    this.level = piece.level * tone.integrator.gain;
    this.frame = new BurstFrame(tone, piece.length);
    this.path = new MeanPath(tone, threshold, piece.length);
    const usual = amplitude * this.level;
    this.crossing = new BridgeCrossing(tree, threshold, this.noise, usual, deviates);
    this.piece = this.crossing.piece;
  }

  pass(phaseTurns: number, amplitude: number): void {
    const { frame, state } = this;
    frame.place(phaseTurns);
    const driven = amplitude * this.level;
    const y = frame.startGrowth * state.mean - driven * frame.startResponse;
    const { variance } = state;
    this.end(driven, y, 0, frame.startGrowth);
    const kept = 1 - state.variance;
    state.variance = 1 + (variance - 1) * kept;
  }

  cross(phaseTurns: number, amplitude: number): number {
    const { deviates, tree, piece, frame, state, noise, path } = this;
    frame.place(phaseTurns);
    const driven = amplitude * this.level;
    const spine = 1 << tree.periodLevels;
    piece[amplitudeAt] = driven;
    let period = path.jump(frame, driven, state);
    let u = 0;
    if (period > 0) {
      u = path.meanAfterJump + noise * Math.sqrt(path.varianceAfterJump) * deviates.normal();
    } else {
      u = state.mean;
      if (state.variance > 0) u += noise * Math.sqrt(state.variance) * deviates.normal();
      const isWithin = frame.whole === 0;
      const { startGrowth } = frame;
      piece[fromClock] = startGrowth * startGrowth - 1;
      piece[fromValue] = startGrowth * u - driven * frame.startResponse;
      piece[toClock] = isWithin ? frame.endClock : tree.clockAt[0]!;
      if (this.search(spine)) return this.step(0);
      if (isWithin) return this.missed(piece[toValue]!);
      u = (piece[toValue]! + driven * tree.responseAt[0]!) / tree.growthAt[0]!;
      period = 1;
    }
    while (period < frame.whole) {
      const j = this.stride(u, frame.whole - period);
      piece[fromClock] = 0;
      piece[fromValue] = u;
      piece[toClock] = tree.clockAt[j]!;
      if (this.search(spine >> j)) return this.step(period);
      u = (piece[toValue]! + driven * tree.responseAt[j]!) / tree.growthAt[j]!;
      period += 1 << j;
    }
    piece[fromClock] = 0;
    piece[fromValue] = u;
    piece[toClock] = frame.endClock;
    return this.search(spine) ? this.step(period) : this.missed(piece[toValue]!);
  }

  /** Draw the path at the end of the piece set, and search what is between for a crossing. */
  private search(node: number): boolean {
    const piece = this.piece;
    const span = Math.max(0, piece[toClock]! - piece[fromClock]!);
    piece[toValue] = piece[fromValue]! + this.noise * Math.sqrt(span) * this.deviates.normal();
    return this.crossing.find(node);
  }

  /** Into how long a stretch to go from a boundary of periods, as a power of two of periods. */
  private stride(u: number, left: number): number {
    const tree = this.tree;
    const amplitude = this.piece[amplitudeAt]!;
    for (let j = tree.periodLevels; j > 0; j--) {
      if (1 << j <= left) {
        const gap = this.threshold * tree.growthAt[j]! - amplitude * tree.responseAt[j]! - u;
        const s = room * this.noise;
        if (gap > 0 && gap * gap > s * s * tree.clockAt[j]!) return j;
      }
    }
    return 0;
  }

  /** The step found by `search` from boundary `period` on. */
  private step(period: number): number {
    const { piece, tone } = this;
    const w = piece[fromClock]!;
    this.end(piece[amplitudeAt]!, piece[fromValue]!, period, Math.sqrt(1 + w));
    const after = 0.5 * tone.integrator.timeConstant * log1p(w);
    return (period - this.frame.start) * tone.period + after;
  }

  /** The stretch ended with y in the frame of its last period, as drawn. */
  private missed(y: number): number {
    const { state, frame } = this;
    state.mean = (y + this.piece[amplitudeAt]! * frame.endResponse) / frame.endGrowth;
    state.variance = 0;
    return Number.NaN;
  }

  /** From a known y, in the frame of `period`, with growth E there, on to the end of the stretch. */
  private end(driven: number, y: number, period: number, growth: number): void {
    const { frame, state } = this;
    const settled = driven * this.tone.settled;
    const decay = this.path.decay[frame.whole - period]! / frame.endGrowth;
    state.mean = (settled + driven * frame.endResponse) / frame.endGrowth + (y - settled) * decay;
    state.variance = 1 - growth * growth * decay * decay;
  }
}
