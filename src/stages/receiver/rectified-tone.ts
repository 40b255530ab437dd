import { cosTurns, exp, sinTurns } from "../../numeric/index.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";

/**
 * What the integrator makes of one volt of rectified tone, from the start of a period of the rectified
 * tone (half a cycle for a full-wave rectifier, a cycle for a half-wave one). Positions x count periods.
 *
 *   growth    E(x) = e^{xT/τ}                       (no leak: 1)
 *   response  R(x) = ∫₀^{xT} r(s)·e^{s/τ} ds/τ      (no leak: without the exponential)
 *   clock     w(x) = E² − 1                         (no leak: 2xT/τ)
 *
 * with r = |sin| or max(sin, 0). A receiver at u₀ at the start of the period has the mean
 * (u₀ + A·R)/E at x, and noise whose variance about it is noise_v²·w/E².
 *
 * Source: the circuit equation v' = (A·r − v)/τ, integrated by hand.
 */
export class RectifiedTone {
  /** Length T of a period of the rectified tone; s. */
  readonly period: number;
  /** Periods in a cycle of the tone: 2 full wave, 1 half wave. */
  readonly periodsPerCycle: 1 | 2;
  /** T/τ. */
  readonly ratio: number;
  /** E at the end of a period. */
  readonly growthPerPeriod: number;
  /** R at the end of a period. */
  readonly responsePerPeriod: number;
  /** Charge at which a period ends as it began, per volt of tone; V/V. Infinite without a leak. */
  readonly settled: number;
  readonly leak: boolean;
  /** ωτ. */
  private readonly omegaTau: number;
  /** 1/(1 + ω²τ²). */
  private readonly scale: number;
  /** Cycles of the tone in a period: ½ full wave, 1 half wave. */
  readonly turnsPerPeriod: 0.5 | 1;

  /**
   * @param receiver - the detector
   * @param carrierHz - frequency of the tone; Hz, > 0
   * @throws RangeError if the period of the rectified tone exceeds a hundred time constants
   */
  constructor(receiver: ReceiverParameters, carrierHz: number) {
    const full = receiver.rectifier === "full";
    this.leak = receiver.leak;
    this.periodsPerCycle = full ? 2 : 1;
    this.turnsPerPeriod = full ? 0.5 : 1;
    this.period = this.turnsPerPeriod / carrierHz;
    this.ratio = this.period / receiver.timeConstant;
    if (!(this.ratio > 0 && this.ratio <= 100)) {
      throw new RangeError(
        `RectifiedTone: carrierHz must give a period of at most 100 time constants, got ${carrierHz} Hz at ${receiver.timeConstant} s`,
      );
    }
    this.omegaTau = 2 * Math.PI * carrierHz * receiver.timeConstant;
    this.growthPerPeriod = this.leak ? exp(this.ratio) : 1;
    const w = this.omegaTau;
    this.scale = 1 / (1 + w * w);
    const atLastZero = exp(full ? this.ratio : 0.5 * this.ratio);
    this.responsePerPeriod = this.leak ? w * (atLastZero + 1) * this.scale : 2 / w;
    this.settled = this.leak ? this.responsePerPeriod / (this.growthPerPeriod - 1) : Infinity;
  }

  /**
   * The rectified tone itself.
   *
   * @param x - position in the period; periods, 0 ≤ x ≤ 1
   * @returns r(x); V/V
   */
  drive(x: number): number {
    return x < 0.5 || this.periodsPerCycle === 2
      ? Math.max(0, sinTurns(x * this.turnsPerPeriod))
      : 0;
  }

  /**
   * Growth of the frame in which the charge does not leak.
   *
   * @param x - position; periods, ≥ 0
   * @returns E(x); dimensionless
   */
  growth(x: number): number {
    return this.leak ? exp(x * this.ratio) : 1;
  }

  /**
   * Clock in which the noise is Brownian.
   *
   * @param x - position; periods, ≥ 0
   * @param growth - E(x)
   * @returns w(x); dimensionless
   */
  clock(x: number, growth: number): number {
    return this.leak ? growth * growth - 1 : 2 * x * this.ratio;
  }

  /**
   * Response to one volt of rectified tone since the start of the period.
   *
   * @param x - position in the period; periods, 0 ≤ x ≤ 1
   * @param growth - E(x)
   * @returns R(x); V/V
   */
  response(x: number, growth: number): number {
    const turns = x * this.turnsPerPeriod;
    return this.responseAt(x, growth, sinTurns(turns), cosTurns(turns));
  }

  /**
   * The same where sine and cosine of the tone are known.
   *
   * @param x - position in the period; periods, 0 ≤ x ≤ 1
   * @param growth - E(x)
   * @param sine - sine of the tone's phase, counted from the start of the period
   * @param cosine - cosine of it
   * @returns R(x); V/V
   */
  responseAt(x: number, growth: number, sine: number, cosine: number): number {
    if (this.periodsPerCycle === 1 && x > 0.5) return this.responsePerPeriod;
    const w = this.omegaTau;
    return this.leak ? (growth * (sine - w * cosine) + w) * this.scale : (1 - cosine) / w;
  }
}
