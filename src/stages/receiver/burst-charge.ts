import { exp } from "../../numeric/index.ts";
import type { ReceivedTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";
import { RectifiedTone } from "./rectified-tone.ts";

/** A stretch of a burst in which the level is straight. */
export interface EnvelopePiece {
  /** Where it begins and how long it is; s. */
  readonly at: number;
  readonly length: number;
  /** Level at its start; dimensionless. */
  readonly level: number;
  /** Change of the level; 1/s. */
  readonly slope: number;
}

/** The pieces between the knots of an envelope; two knots at one moment are a jump. */
export function envelopePieces({ envelope }: ReceivedTone): EnvelopePiece[] {
  return envelope.slice(1).flatMap((knot, i) => {
    const { at, level } = envelope[i]!;
    const length = knot.at - at;
    return length > 0 ? [{ at, length, level, slope: (knot.level - level) / length }] : [];
  });
}

/**
 * The charge that a burst of whatever envelope brings into an empty receiver, without noise, in V per volt of amplitude.
 *
 *   M(t) = L·S(x) − τL'·Z(x) + c·e^(−t/τ) in each piece of the envelope, c such that the charge does not jump
 *
 * A charge of q at the start adds q·e^(−t/τ).
 *
 * Source: the circuit equation, linear, solved piece by piece (`RectifiedTone.steady`).
 */
export class BurstCharge {
  readonly tone: RectifiedTone;
  readonly pieces: readonly EnvelopePiece[];
  /** For each piece what is left at its start of all but the steady part; V/V. */
  readonly free: Float64Array;
  /** M at the end of the burst; V/V. */
  atEnd = 0;
  private turns = 0;
  private readonly gain: number;
  private readonly timeConstant: number;

  /**
   * @param receiver - the detector
   * @param tone - the tone and the burst
   * @param rectified - the tone as the detector sees it
   * @throws RangeError as `RectifiedTone`
   */
  constructor(
    receiver: ReceiverParameters,
    tone: ReceivedTone,
    rectified: RectifiedTone = new RectifiedTone(receiver, tone),
  ) {
    this.tone = rectified;
    this.gain = this.tone.integrator.gain;
    this.timeConstant = this.tone.integrator.timeConstant;
    this.pieces = envelopePieces(tone);
    this.free = new Float64Array(this.pieces.length);
    this.place(0);
  }

  /**
   * Places a burst.
   *
   * @param phaseTurns - phase of the tone at its start; turns
   */
  place(phaseTurns: number): void {
    this.turns = phaseTurns * this.tone.periodsPerCycle;
    let charge = 0;
    this.pieces.forEach((piece, j) => {
      this.free[j] = charge - this.steady(piece, 0);
      charge =
        this.steady(piece, piece.length) + this.free[j]! * exp(-piece.length / this.timeConstant);
    });
    this.atEnd = this.gain * charge;
  }

  /**
   * @param time - after the start of the burst; s, >= 0, at most the burst's length
   * @returns M; V/V
   */
  at(time: number): number {
    const { pieces } = this;
    let j = pieces.length - 1;
    while (j > 0 && pieces[j]!.at > time) j--;
    const after = time - pieces[j]!.at;
    const left = this.free[j]! * exp(-after / this.timeConstant);
    return this.gain * (this.steady(pieces[j]!, after) + left);
  }

  /**
   * @param time - after the start of the burst; s
   * @returns the rectified tone with its envelope; V/V, 0 after the burst
   */
  toneAt(time: number): number {
    const piece = this.pieces.find(({ at, length }) => time >= at && time <= at + length);
    if (piece === undefined) return 0;
    return (piece.level + piece.slope * (time - piece.at)) * this.tone.drive(this.positionAt(time));
  }

  /**
   * @param time - after the start of the burst; s
   * @returns where in its period the rectified tone stands; periods, 0 ≤ x < 1
   */
  positionAt(time: number): number {
    const position = this.turns + time / this.tone.period;
    return position - Math.floor(position);
  }

  /** The steady part of a piece so long after its start, before the gain; V/V. */
  steady(piece: EnvelopePiece, after: number): number {
    const x = this.positionAt(piece.at + after);
    const level = piece.level + piece.slope * after;
    return this.tone.steady(x, level, piece.slope * this.timeConstant);
  }
}
