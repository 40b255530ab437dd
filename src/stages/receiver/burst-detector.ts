import type { RandomStream } from "../../numeric/index.ts";
import { exp, log1p } from "../../numeric/index.ts";
import { BoundaryTree } from "./boundary-tree.ts";
import {
  amplitudeAt,
  BridgeCrossing,
  fromClock,
  fromValue,
  toClock,
  toValue,
} from "./bridge-crossing.ts";
import { BurstFrame } from "./burst-frame.ts";
import { type BurstOutcome, burstOutcome } from "./burst-outcome.ts";
import { Deviates } from "./deviates.ts";
import { MeanPath } from "./mean-path.ts";
import { noiseFreeCrossing } from "./noise-free-crossing.ts";
import type { ReceivedTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";
import { timeToForget } from "./time-to-forget.ts";
import { treeShape } from "./tree-shape.ts";

/** Standard deviations of room that make a step over whole periods worth while. */
const room = 2;

/**
 * The threshold detector, burst by burst: when v + noise first reaches the threshold, drawn from its exact
 * law in continuous time.
 *
 * The state is u = v + noise alone, since charge and noise decay together; between the moments that matter
 * it is kept as a mean and a variance, so that one Gaussian deviate leads from a crossing to far into the
 * next burst. Within a burst: one jump over the periods in which a crossing has a probability below 1e-12
 * (`MeanPath`), then a Gaussian deviate for every few periods, each stretch searched for a crossing by
 * `BridgeCrossing`. What is left of error is the straightness of cells, 20 ns in a random direction
 * (`treeShape`), and what the jump neglects.
 */
export class BurstDetector {
  /** What became of the burst last detected. */
  outcome: BurstOutcome = burstOutcome.step;
  private readonly path: MeanPath;
  private readonly tree: BoundaryTree;
  private readonly crossing: BridgeCrossing;
  private readonly deviates: Deviates;
  private readonly piece: Float64Array;
  private readonly threshold: number;
  private readonly noise: number;
  private readonly tau: number;
  private readonly leak: boolean;
  private readonly burst: number;
  private readonly frame: BurstFrame;
  private readonly amplitude: number;
  private readonly receiver: ReceiverParameters;
  /** Mean of u at the moment last considered; V. */
  private mean = 0;
  /** Variance of u about it, in units of noise_v². */
  private variance = 0;
  /**
   * @param receiver - the detector
   * @param tone - the tone it is made for; the frequency and the burst are taken as said, each burst's
   *   amplitude may differ from the one said
   * @param stream - deviates of the receiver
   * @throws RangeError if the period of the rectified tone exceeds a hundred time constants
   */
  constructor(receiver: ReceiverParameters, tone: ReceivedTone, stream: RandomStream) {
    this.path = new MeanPath(receiver, tone);
    const shape = treeShape(receiver, tone, this.path.tone);
    this.tree = new BoundaryTree(this.path.tone, shape[0], shape[1]);
    this.deviates = new Deviates(stream);
    this.crossing = new BridgeCrossing(
      this.tree,
      receiver.thresholdV,
      receiver.noiseV,
      tone.amplitudeV,
      this.deviates,
    );
    this.piece = this.crossing.piece;
    this.threshold = receiver.thresholdV;
    this.noise = receiver.noiseV;
    this.tau = receiver.timeConstant;
    this.leak = receiver.leak;
    this.burst = tone.burst;
    this.frame = new BurstFrame(this.path.tone, tone.burst);
    this.amplitude = tone.amplitudeV;
    this.receiver = receiver;
    this.begin();
  }

  /** Forget all: the state after a long silence, no charge and stationary noise. */
  begin(): void {
    this.mean = 0;
    this.variance = this.leak && this.noise > 0 ? 1 : 0;
  }

  /**
   * Silence.
   *
   * @param dt - length; s, >= 0
   */
  rest(dt: number): void {
    if (this.leak) {
      const decay = exp(-dt / this.tau);
      this.mean *= decay;
      if (this.noise > 0) this.variance = 1 + (this.variance - 1) * decay * decay;
    }
  }

  /**
   * One burst, from its start to its end.
   *
   * @param phaseTurns - phase of the tone at the start of the burst; turns, >= 0
   * @param amplitudeV - peak amplitude of this burst; V, >= 0
   * @returns time from the start of the burst to the step; s, NaN where there is none (see `outcome`)
   */
  detect(phaseTurns: number, amplitudeV: number): number {
    this.frame.place(phaseTurns);
    if (!this.leak) this.begin();
    const jumped = this.path.jump(this.frame, amplitudeV, this.mean);
    return this.noise > 0 ? this.noisy(amplitudeV, jumped) : this.quiet(amplitudeV, jumped);
  }

  /**
   * How many bursts before a looked-at one must be computed for what they leave behind to vanish beside
   * the noise of the receiver (`timeToForget`).
   *
   * @param burstPeriod - from burst to burst; s, > burst
   * @param amplitudeFactor - of the bursts before, on the amplitude said; dimensionless
   * @returns integer >= 0; begin() goes before the first of them
   */
  burstsToForget(burstPeriod: number, amplitudeFactor = 1): number {
    const needed = timeToForget(this.receiver, amplitudeFactor * this.amplitude);
    const silence = burstPeriod - this.burst;
    return Math.max(0, Math.ceil((needed - silence) / burstPeriod));
  }

  /** Detection with noise: `jumped` is the boundary of periods to go to in one step, 0 for none. */
  private noisy(amplitude: number, jumped: number): number {
    const noise = this.noise;
    const { deviates, tree, piece, frame } = this;
    const spine = 1 << tree.periodLevels;
    piece[amplitudeAt] = amplitude;
    let period = jumped;
    let u = this.path.meanAfterJump;
    if (period > 0) {
      const decay = this.path.decayOfJump;
      const variance = this.leak
        ? 1 + (this.variance - 1) * decay * decay
        : 2 * (period - frame.start) * this.path.tone.ratio;
      u += noise * Math.sqrt(variance) * deviates.normal();
    } else {
      u = this.mean;
      if (this.variance > 0) u += noise * Math.sqrt(this.variance) * deviates.normal();
      const y = frame.startGrowth * u - amplitude * frame.startResponse;
      if (u >= this.threshold) {
        return this.end(burstOutcome.blocked, amplitude, y, 0, frame.startGrowth);
      }
      const isWithin = frame.whole === 0;
      piece[fromClock] = this.path.tone.clock(frame.start, frame.startGrowth);
      piece[fromValue] = y;
      piece[toClock] = isWithin ? frame.endClock : tree.clockAt[0]!;
      if (this.search(spine)) return this.step(0);
      if (isWithin) return this.missed(amplitude, piece[toValue]!);
      u = (piece[toValue]! + amplitude * tree.responseAt[0]!) / tree.growthAt[0]!;
      period = 1;
    }
    while (period < frame.whole) {
      const j = this.stride(u, frame.whole - period);
      piece[fromClock] = 0;
      piece[fromValue] = u;
      piece[toClock] = tree.clockAt[j]!;
      if (this.search(spine >> j)) return this.step(period);
      u = (piece[toValue]! + amplitude * tree.responseAt[j]!) / tree.growthAt[j]!;
      period += 1 << j;
    }
    piece[fromClock] = 0;
    piece[fromValue] = u;
    piece[toClock] = frame.endClock;
    return this.search(spine) ? this.step(period) : this.missed(amplitude, piece[toValue]!);
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

  /** Detection without noise. */
  private quiet(amplitude: number, jumped: number): number {
    const { tone } = this.path;
    const frame = this.frame;
    let period = jumped;
    let from = 0;
    let y = this.path.meanAfterJump;
    if (period === 0) {
      y = frame.startGrowth * this.mean - amplitude * frame.startResponse;
      if (this.mean >= this.threshold) {
        return this.end(burstOutcome.blocked, amplitude, y, 0, frame.startGrowth);
      }
      from = frame.start;
    }
    for (;;) {
      const isLast = period === frame.whole;
      const to = isLast ? frame.end : 1;
      const x = noiseFreeCrossing(tone, this.threshold, amplitude, y, from, to);
      if (x >= from) {
        const growth = tone.growth(x);
        const atStep = this.threshold * growth - amplitude * tone.response(x, growth);
        this.end(burstOutcome.step, amplitude, atStep, period, growth);
        return (period + x - frame.start) * tone.period;
      }
      if (isLast) return this.missed(amplitude, y);
      y = (y + amplitude * tone.responsePerPeriod) / tone.growthPerPeriod;
      from = 0;
      period++;
    }
  }

  /** The step found by `search` in the stretch from boundary `period`. */
  private step(period: number): number {
    const piece = this.piece;
    const w = piece[fromClock]!;
    const growth = this.leak ? Math.sqrt(1 + w) : 1;
    this.end(burstOutcome.step, piece[amplitudeAt]!, piece[fromValue]!, period, growth);
    const after = 0.5 * this.tau * (this.leak ? log1p(w) : w);
    return (period - this.frame.start) * this.path.tone.period + after;
  }

  /** The burst ended with y in the frame of its last period, as drawn. */
  private missed(amplitude: number, y: number): number {
    this.outcome = burstOutcome.missed;
    this.mean = (y + amplitude * this.frame.endResponse) / this.frame.endGrowth;
    this.variance = 0;
    return Number.NaN;
  }

  /** From a known y, in the frame of `period`, with growth E there, on to the end of the burst. */
  private end(outcome: BurstOutcome, amplitude: number, y: number, period: number, growth: number) {
    this.outcome = outcome;
    if (this.leak) {
      const frame = this.frame;
      const settled = amplitude * this.path.tone.settled;
      const decay = this.path.decay[frame.whole - period]! / frame.endGrowth;
      this.mean =
        (settled + amplitude * frame.endResponse) / frame.endGrowth + (y - settled) * decay;
      if (this.noise > 0) this.variance = 1 - growth * growth * decay * decay;
    }
    return Number.NaN;
  }
}
