import type { BurstFrame } from "./burst-frame.ts";
import type { ReceivedTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";
import { RectifiedTone } from "./rectified-tone.ts";

/** Standard deviations between the mean path and the threshold that count as out of reach. */
const outOfReach = 8.5;

/** Positions at which the ripple of a period is looked at. */
const ripplePoints = 256;

/**
 * The mean of u through a burst, and how far into it no crossing need be looked for.
 *
 * At the ends of periods the mean goes geometrically to A·c, c the settled charge per volt; between them
 * it departs from that curve by a ripple, at most A·rise above and A·dip below. While mean plus ripple
 * stay 8.5 σ below the threshold, σ = noise_v, stationary noise crosses with a probability below
 * (8.5/√(2π))·e^(−8.5²/2)·(duration/τ) = 7e-16 a time constant (rate of an Ornstein-Uhlenbeck process at a
 * high level), a start with less variance with at most twice that: below 1e-12 in any burst of less than
 * 700 time constants. Without a leak the deviation grows as √(2t/τ), and the line 8.5 of them above the
 * mean is crossed with a probability of the same order.
 */
export class MeanPath {
  readonly tone: RectifiedTone;
  /** q^−n, what is left of a charge after n periods; n = 0, …, periods in a burst and one more. */
  readonly decay: Float64Array;
  /** Mean of u at the boundary the last jump led to; V. */
  meanAfterJump = 0;
  /** What the last jump left of the charge it began with. */
  decayOfJump = 1;
  private readonly threshold: number;
  private readonly noise: number;
  private readonly rise: number;
  private readonly dip: number;
  /** Where the last search ended: the next one begins there. */
  private guess = 0;

  /**
   * @param receiver - the detector
   * @param received - the tone it is made for
   * @throws RangeError if the period of the rectified tone exceeds a hundred time constants
   */
  constructor(receiver: ReceiverParameters, received: ReceivedTone) {
    const tone = new RectifiedTone(
      receiver,
      received.carrierHz * (1 + received.carrierFractionalOffset),
    );
    this.tone = tone;
    this.threshold = receiver.thresholdV;
    this.noise = receiver.noiseV;
    this.decay = new Float64Array(Math.floor(received.burst / tone.period) + 3);
    for (let n = 0; n < this.decay.length; n++) this.decay[n] = 1 / tone.growth(n);
    let rise = 0;
    let dip = 0;
    for (let k = 1; k < ripplePoints; k++) {
      const x = k / ripplePoints;
      const growth = tone.growth(x);
      const ripple = tone.leak
        ? (tone.settled + tone.response(x, growth)) / growth - tone.settled
        : tone.response(x, growth) - x * tone.responsePerPeriod;
      rise = Math.max(rise, ripple);
      dip = Math.max(dip, -ripple);
    }
    // Between two points the ripple rises by less than a step of the steepest drive.
    const step = tone.ratio / ripplePoints;
    this.rise = rise + step;
    this.dip = dip + step;
  }

  /**
   * The last boundary of periods before which a crossing is out of reach.
   *
   * @param frame - where the burst begins and ends
   * @param amplitude - A; V, >= 0
   * @param mean - mean of u at the start of the burst, its variance at most noise_v²; V
   * @returns the boundary, counted from the start of the period the burst begins in; 0 for no jump.
   *   The mean there is in `meanAfterJump`, the decay of what was there before in `decayOfJump`
   */
  jump(frame: BurstFrame, amplitude: number, mean: number): number {
    const whole = frame.whole;
    const growth = frame.startGrowth;
    const tone = this.tone;
    const q = tone.growthPerPeriod;
    const first = (growth * mean + amplitude * (tone.responsePerPeriod - frame.startResponse)) / q;
    const level = this.threshold - amplitude * this.rise;
    if (whole < 1) return 0;
    if (!tone.leak) return this.jumpWithoutLeak(frame.start, first, whole, amplitude, level);
    const reach = level - outOfReach * this.noise;
    if (mean + amplitude * this.dip > reach || first > reach) return 0;
    const settled = amplitude * tone.settled;
    let n = whole - 1;
    if (settled > reach) {
      const least = (settled - reach) / (settled - first);
      const decay = this.decay;
      n = Math.min(this.guess, n);
      while (n > 0 && decay[n]! < least) n--;
      while (n < whole - 1 && decay[n + 1]! >= least) n++;
      this.guess = n;
    }
    const left = this.decay[n]!;
    this.meanAfterJump = settled + (first - settled) * left;
    this.decayOfJump = (growth / q) * left;
    return n + 1;
  }

  private jumpWithoutLeak(
    x: number,
    first: number,
    whole: number,
    amplitude: number,
    level: number,
  ): number {
    // The largest t, in periods from the start, with gain·t + spread·√t <= distance.
    const gain = amplitude * this.tone.responsePerPeriod;
    const distance = level - amplitude * this.dip;
    const spread = outOfReach * this.noise * Math.sqrt(2 * this.tone.ratio);
    if (!(distance > 0)) return 0;
    let t = whole;
    if (gain > 0 || spread > 0) {
      const root = (2 * distance) / (spread + Math.sqrt(spread * spread + 4 * gain * distance));
      t = root * root;
    }
    const period = Math.min(whole, Math.floor(x + t));
    if (period < 1) return 0;
    this.meanAfterJump = first + (period - 1) * gain;
    this.decayOfJump = 1;
    return period;
  }
}
