import { chiSquareQuantile } from "../../numeric/index.ts";

/** Probability within three standard errors. */
const threeErrors = 0.9973;
/** An rms that differs by less, as a part of itself, is told right. */
const tolerance = 0.03;

/** Deviations of an ensemble, added up. */
export class Deviations {
  count = 0;
  private squares = 0;
  private fourths = 0;

  /** Adds one; dimensionless. */
  add(deviation: number): void {
    const square = deviation * deviation;
    this.count++;
    this.squares += square;
    this.fourths += square * square;
  }

  /** Root of the mean square; NaN without any. */
  get rms(): number {
    return Math.sqrt(this.squares / this.count);
  }

  /**
   * Gaussian deviations that would know their mean square as well as these do.
   *
   *   ν = 2·m₂²·N/(m₄ − m₂²), N for Gaussian ones
   *
   * @returns at most 10 times as many as there are
   */
  get degreesOfFreedom(): number {
    const square = this.squares / this.count;
    const spread = this.fourths / this.count - square * square;
    const effective = (2 * square * square * this.count) / spread;
    return effective < 10 * this.count ? Math.max(1, effective) : 10 * this.count;
  }

  /**
   * Interval of the true rms.
   *
   * @param confidence - 0 < p < 1
   * @returns low and high end; same unit as the deviations
   *
   * Source: NIST/SEMATECH e-Handbook 7.2.3.1 (chi-square interval of a standard deviation), with the degrees of freedom
   * of deviations that need not be Gaussian.
   */
  interval(confidence: number): [number, number] {
    const dof = this.degreesOfFreedom;
    const end = (p: number) => this.rms * Math.sqrt(dof / chiSquareQuantile(p, dof));
    return [end(0.5 + confidence / 2), end(0.5 - confidence / 2)];
  }

  /**
   * Whether they contradict a prediction: by more than three standard errors and 3 %.
   *
   * @param predicted - rms; same unit as the deviations
   */
  differFrom(predicted: number): boolean {
    const [low, high] = this.interval(threeErrors);
    const isWithin = low <= predicted && predicted <= high;
    return !isWithin && !(Math.abs(this.rms / predicted - 1) <= tolerance);
  }
}
