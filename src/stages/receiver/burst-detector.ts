import type { RandomStream } from "../../numeric/index.ts";
import { BoundaryTree } from "./boundary-tree.ts";
import { type EnvelopePiece, envelopePieces } from "./burst-charge.ts";
import { type BurstOutcome, burstOutcome } from "./burst-outcome.ts";
import { timeToForget } from "./charge-left.ts";
import { DetectorState, type Stretch } from "./detector-state.ts";
import { Deviates } from "./deviates.ts";
import { LevelStretch } from "./level-stretch.ts";
import { PlainStretch } from "./plain-stretch.ts";
import { burstLength, type ReceivedTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";
import { RectifiedTone } from "./rectified-tone.ts";
import { treeShape } from "./tree-shape.ts";

/**
 * The threshold detector, burst by burst: when v + noise first reaches the threshold, drawn from its exact
 * law in continuous time. It goes through the envelope piece by piece: cell by cell (`PlainStretch`), or, where there is
 * noise and the level is even, by the faster `LevelStretch`.
 */
export class BurstDetector {
  /** What became of the burst last detected. */
  outcome: BurstOutcome = burstOutcome.step;
  private readonly receiver: ReceiverParameters;
  private readonly tone: ReceivedTone;
  private readonly state: DetectorState;
  private readonly deviates: Deviates;
  private readonly noise: number;
  private readonly stretches: readonly Stretch[];
  /** For each of them where it begins; s, and turns of the tone. */
  private readonly starts: Float64Array;
  private readonly turns: Float64Array;

  /**
   * @param receiver - the detector
   * @param tone - the tone it is made for; the frequency and the envelope are taken as said, each burst's
   *   amplitude may differ from the one said
   * @param stream - deviates of the receiver
   * @param isPlain - whether even levels are gone through cell by cell too, as tests do for a yardstick
   * @throws RangeError if the period of the rectified tone exceeds a hundred time constants
   */
  constructor(
    receiver: ReceiverParameters,
    tone: ReceivedTone,
    stream: RandomStream,
    isPlain = receiver.noiseV === 0,
  ) {
    const rectified = new RectifiedTone(receiver, tone);
    this.receiver = receiver;
    this.tone = tone;
    this.noise = rectified.integrator.noise;
    const state = new DetectorState(rectified.integrator);
    const deviates = new Deviates(stream);
    this.state = state;
    this.deviates = deviates;
    const pieces = envelopePieces(tone);
    const theta = receiver.thresholdV;
    const isLevel = ({ slope }: EnvelopePiece) => slope === 0 && !isPlain;
    const longest = Math.max(0, ...pieces.filter(isLevel).map(({ length }) => length));
    const [periods, cells] = treeShape(theta, tone, rectified, longest);
    const tree = longest > 0 ? new BoundaryTree(rectified, periods, cells) : null;
    this.stretches = pieces.map((piece) =>
      tree !== null && isLevel(piece)
        ? new LevelStretch(piece, tree, rectified, theta, tone.amplitudeV, state, deviates)
        : new PlainStretch(piece, rectified, theta, 1 << cells, state, deviates),
    );
    this.starts = Float64Array.from(pieces, ({ at }) => at);
    const carrierHz = tone.carrierHz * (1 + tone.carrierFractionalOffset);
    this.turns = this.starts.map((at) => at * carrierHz);
    this.begin();
  }

  /** Forget all: the state after a long silence, no charge and stationary noise. */
  begin(): void {
    this.state.begin();
  }

  /**
   * Silence.
   *
   * @param dt - length; s, >= 0
   */
  rest(dt: number): void {
    this.state.rest(dt);
  }

  /**
   * One burst, from its start to its end.
   *
   * @param phaseTurns - phase of the tone at the start of the burst; turns, >= 0
   * @param amplitudeV - peak amplitude of this burst; V, >= 0
   * @returns time from the start of the burst to the step; s, NaN where there is none (see `outcome`)
   */
  detect(phaseTurns: number, amplitudeV: number): number {
    const { starts, turns, stretches } = this;
    let delay = Number.NaN;
    this.outcome = this.isBlocked() ? burstOutcome.blocked : burstOutcome.missed;
    for (let j = 0; j < stretches.length; j++) {
      const phase = phaseTurns + turns[j]!;
      if (this.outcome !== burstOutcome.missed) {
        stretches[j]!.pass(phase, amplitudeV);
        continue;
      }
      const after = stretches[j]!.cross(phase, amplitudeV);
      if (after >= 0) {
        delay = starts[j]! + after;
        this.outcome = burstOutcome.step;
      }
    }
    return delay;
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
    const needed = timeToForget(this.receiver, amplitudeFactor * this.tone.amplitudeV);
    const silence = burstPeriod - burstLength(this.tone);
    return Math.max(0, Math.ceil((needed - silence) / burstPeriod));
  }

  /** Whether u stands above the threshold; it is drawn where that is not out of the question. */
  private isBlocked(): boolean {
    const { state, noise } = this;
    const distance = this.receiver.thresholdV - state.mean;
    if (distance > 0 && distance * distance > surely * noise * noise * state.variance) return false;
    if (state.variance > 0) {
      state.mean += noise * Math.sqrt(state.variance) * this.deviates.normal();
      state.variance = 0;
    }
    return state.mean >= this.receiver.thresholdV;
  }
}

/** Squared standard deviations at which nothing is drawn: beyond 8.5 of them. */
const surely = 72.25;
