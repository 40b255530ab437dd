import type { BurstFrame } from "./burst-frame.ts";
import type { DetectorState } from "./detector-state.ts";
import { outOfReach } from "./plain-stretch.ts";
import type { RectifiedTone } from "./rectified-tone.ts";

/**
 * The mean of u through a stretch of one level, and how far into it no crossing need be looked for.
 *
 * At the ends of periods the mean goes geometrically to A·S(0); between them it departs from that curve by the swing
 * of a period. While mean plus swing stay 8.5 σ below the threshold, σ the noise there, stationary noise crosses with
 * a probability below (8.5/√(2π))·e^(−8.5²/2)·(duration/τ) = 7e-16 a time constant (rate of an Ornstein-Uhlenbeck
 * process at a high level), a start with less variance with a probability of the same order: below 1e-12 in any burst of
 * less than 700 time constants.
 */
export class MeanPath {
  /** E^−n, what is left of a charge after n periods; n = 0, …, periods in the stretch and one more. */
  readonly decay: Float64Array;
  /** Mean of u at the boundary the last jump led to; V. */
  meanAfterJump = 0;
  /** Its variance there about it, in units of noise². */
  varianceAfterJump = 1;
  private readonly tone: RectifiedTone;
  private readonly threshold: number;
  private readonly noise: number;
  private readonly rise: number;
  private readonly dip: number;
  /** Where the last search ended: the next one begins there. */
  private guess = 0;

  /**
   * @param tone - the rectified tone
   * @param threshold - V
   * @param length - length of the stretch; s
   */
  constructor(tone: RectifiedTone, threshold: number, length: number) {
    this.tone = tone;
    this.threshold = threshold;
    this.noise = outOfReach * tone.integrator.noise;
    [this.dip, this.rise] = tone.swing;
    this.decay = new Float64Array(Math.floor(length / tone.period) + 3);
    for (let n = 0; n < this.decay.length; n++) this.decay[n] = 1 / tone.growth(n);
  }

  /**
   * The last boundary of periods before which a crossing is out of reach.
   *
   * @param frame - where the stretch begins and ends
   * @param amplitude - A in the stretch; V, >= 0
   * @param state - u at its start, with a variance of at most noise²
   * @returns the boundary, counted from the start of the period the stretch begins in; 0 for no jump.
   *   Mean and variance there are in `meanAfterJump` and `varianceAfterJump`
   */
  jump(frame: BurstFrame, amplitude: number, state: DetectorState): number {
    const { whole, startGrowth: growth } = frame;
    const { tone, decay, noise } = this;
    const { mean, variance } = state;
    if (whole < 1) return 0;
    const q = tone.growthPerPeriod;
    const first = (growth * mean + amplitude * (tone.responsePerPeriod - frame.startResponse)) / q;
    const level = this.threshold - amplitude * this.rise;
    // The mean goes from its first boundary to where it settles, the spread from that of the start to the whole noise.
    const settled = amplitude * tone.settled;
    const atFirst = growth / q;
    const missing = (1 - variance) * atFirst * atFirst;
    if (mean + amplitude * this.dip + noise * Math.sqrt(1 - missing) > level) return 0;
    const away = first - settled;
    const isClear = (n: number) => {
      const left = decay[n]!;
      const spread = noise * Math.sqrt(1 - missing * left * left);
      return (away > 0 ? first : settled + away * left) + spread < level;
    };
    let n = Math.min(this.guess, whole - 1);
    while (n >= 0 && !isClear(n)) n--;
    if (n < 0) return 0;
    while (n < whole - 1 && isClear(n + 1)) n++;
    this.guess = n;
    const left = decay[n]!;
    this.meanAfterJump = settled + away * left;
    this.varianceAfterJump = 1 - missing * left * left;
    return n + 1;
  }
}
