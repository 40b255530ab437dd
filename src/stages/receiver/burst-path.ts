import { exp } from "../../numeric/index.ts";
import { BurstCharge } from "./burst-charge.ts";
import { burstLength, type ReceivedTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";
import type { RectifiedTone } from "./rectified-tone.ts";

/** An even grid of times from the start of a burst, in step with the tone. */
export interface BurstGrid {
  /** Points in a period of the rectified tone; 1 where its mean stands for it. */
  readonly rows: number;
  /** Spacing; s. */
  readonly step: number;
}

/** The course of a burst on a grid, per volt of amplitude. */
export interface BurstPath {
  /** Where in its period the burst begins; points of the grid, from 0 to rows − 1. */
  readonly start: number;
  /** Charge in an empty receiver, and the tone that makes it, G·L·r, at points 0, 1, …; V/V. */
  readonly charge: Float64Array;
  readonly drive: Float64Array;
}

/** Courses of bursts that begin at the points of one grid, and what they have in common. */
export class BurstPaths {
  readonly grid: BurstGrid;
  /** Points after the start, the last one at the end or shortly before. */
  readonly steps: number;
  /** e^(−t/τ) after so many points. */
  readonly decay: Float64Array;
  /** First and last point of the longest piece of one level; the level times the gain. */
  readonly evenFrom: number;
  readonly evenTo: number;
  readonly evenLevel: number;
  /** S, r and Z on the rows of a period; V/V. */
  readonly steadyOf: Float64Array;
  readonly toneOf: Float64Array;
  private readonly lagOf: Float64Array;
  private readonly burst: BurstCharge;

  /**
   * @param receiver - the detector
   * @param received - the tone and the burst
   * @param tone - the rectified tone, or its mean
   * @param grid - the grid
   * @param until - how far the paths go; s, at most the length of a burst
   */
  constructor(
    receiver: ReceiverParameters,
    received: ReceivedTone,
    tone: RectifiedTone,
    grid: BurstGrid,
    until = burstLength(received),
  ) {
    const { rows, step } = grid;
    const { timeConstant, gain } = tone.integrator;
    this.grid = grid;
    this.burst = new BurstCharge(receiver, received, tone);
    this.steps = Math.floor(until / step);
    this.decay = new Float64Array(this.steps + 1).fill(1);
    const kept = exp(-step / timeConstant);
    for (let i = 1; i <= this.steps; i++) this.decay[i] = this.decay[i - 1]! * kept;
    this.steadyOf = Float64Array.from({ length: rows }, (_, k) => tone.steady(k / rows, 1, 0));
    this.lagOf = Float64Array.from({ length: rows }, (_, k) => -tone.steady(k / rows, 0, 1));
    this.toneOf = Float64Array.from({ length: rows }, (_, k) => tone.drive(k / rows));
    let even = { from: 0, to: -1, level: 0 };
    for (const { at, length, level, slope } of this.burst.pieces) {
      const from = Math.ceil(at / step);
      const to = Math.min(this.steps, Math.floor((at + length) / step));
      if (slope === 0 && to - from > even.to - even.from) even = { from, to, level };
    }
    this.evenFrom = even.from;
    this.evenTo = even.to;
    this.evenLevel = even.level * gain;
  }

  /** The path of a burst that begins at a row of a period. */
  from(start: number): BurstPath {
    const { burst, steadyOf, lagOf, toneOf, decay, steps } = this;
    const { rows, step } = this.grid;
    const { timeConstant, gain } = burst.tone.integrator;
    const charge = new Float64Array(steps + 1);
    const drive = new Float64Array(steps + 1);
    burst.place(start / rows / burst.tone.periodsPerCycle);
    let i = 0;
    burst.pieces.forEach(({ at, length, level, slope }, j) => {
      const first = i;
      // What the piece begins with beside its steady part, at the first point in it.
      const free = burst.free[j]! * exp((at - first * step) / timeConstant);
      const isLast = j === burst.pieces.length - 1;
      for (; i <= steps && (isLast || i * step < at + length); i++) {
        const row = (start + i) % rows;
        const here = level + slope * (i * step - at);
        const steady = here * steadyOf[row]! - slope * timeConstant * lagOf[row]!;
        charge[i] = gain * (steady + free * decay[i - first]!);
        drive[i] = gain * here * toneOf[row]!;
      }
    });
    return { start, charge, drive };
  }
}
