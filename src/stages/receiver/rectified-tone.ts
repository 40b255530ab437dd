import { cosTurns, exp, sinTurns } from "../../numeric/index.ts";
import { type Integrator, integratorOf } from "./integrator.ts";
import type { ReceivedTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";

/** Positions at which the swing of a period is looked at. */
const swingPoints = 64;

/** Longest period of the rectified tone; time constants of the receiver. */
const longestPeriod = 100;

/**
 * What the integrator makes of one volt of rectified tone r = |sin| or max(sin, 0), whose periods are half a cycle
 * or a cycle. Positions x count periods.
 *
 *   growth    E(x) = e^{xT/τ}
 *   response  R(x) = ∫₀^{xT} r(s)·e^{s/τ} ds/τ
 *   clock     w(x) = E² − 1
 *   steady    S(x), the charge once the tone has gone on for ever: τS' = r − S
 *   lag       Z(x), what the integrator would make of S: τZ' = S − Z
 *
 * A receiver at u₀ at the start of a period has the mean (u₀ + A·R)/E at x, and noise whose variance about it is
 * noise²·w/E². A tone whose level L grows evenly has the steady part L·S − τL'·Z (see `BurstCharge`).
 *
 * Source: the circuit equation v' = (A·r − v)/τ, integrated by hand.
 */
export class RectifiedTone {
  readonly integrator: Integrator;
  /** Length T of a period of the rectified tone; s. */
  readonly period: number;
  /** Periods in a cycle of the tone: 2 full wave, 1 half wave. */
  readonly periodsPerCycle: 1 | 2;
  /** Cycles of the tone in a period: ½ full wave, 1 half wave. */
  readonly turnsPerPeriod: 0.5 | 1;
  /** T/τ. */
  readonly ratio: number;
  /** E and R at the end of a period. */
  readonly growthPerPeriod: number;
  readonly responsePerPeriod: number;
  /** S at the start of a period; V/V. */
  readonly settled: number;
  /** Mean over a period of r, and so of S and of Z; V/V. */
  readonly mean: number;
  /** ωτ. */
  private readonly omegaTau: number;
  /** 1/(1 + ω²τ²). */
  private readonly scale: number;
  /** Half a cycle of the tone; periods, and time constants. */
  private readonly half: 0.5 | 1;
  private readonly halfRatio: number;
  /** What decays in the driven half cycle, of S and of Z; and S and Z at its end. */
  private readonly free: number;
  private readonly freeLag: number;
  private readonly atEnd: number;
  private readonly lagAtEnd: number;
  private knownSwing: readonly [number, number] | null = null;

  /**
   * @param receiver - the detector
   * @param tone - the tone it is made for
   * @throws RangeError if the period of the rectified tone exceeds a hundred time constants
   */
  constructor(receiver: ReceiverParameters, tone: ReceivedTone) {
    this.integrator = integratorOf(receiver, tone);
    const { timeConstant } = this.integrator;
    const carrierHz = tone.carrierHz * (1 + tone.carrierFractionalOffset);
    const full = receiver.rectifier === "full";
    this.periodsPerCycle = full ? 2 : 1;
    this.turnsPerPeriod = full ? 0.5 : 1;
    this.half = full ? 1 : 0.5;
    this.mean = (full ? 2 : 1) / Math.PI;
    this.period = this.turnsPerPeriod / carrierHz;
    this.ratio = this.period / timeConstant;
    if (!(this.ratio > 0 && this.ratio <= longestPeriod)) {
      throw new RangeError(
        `RectifiedTone: carrierHz must give a period of at most ${longestPeriod} time constants, got ${carrierHz} Hz at ${timeConstant} s`,
      );
    }
    const w = 2 * Math.PI * carrierHz * timeConstant;
    const scale = 1 / (1 + w * w);
    this.omegaTau = w;
    this.scale = scale;
    this.growthPerPeriod = exp(this.ratio);
    const h = this.half * this.ratio;
    this.halfRatio = h;
    this.responsePerPeriod = w * (exp(h) + 1) * scale;
    const kept = exp(-h);
    const sine = w * scale;
    this.free = ((full ? 2 : 1) * sine) / (1 - kept);
    this.settled = this.free - sine;
    this.atEnd = sine + this.free * kept;
    const turned = 2 * sine * scale + this.free * h * kept;
    this.freeLag = full
      ? (2 * sine * scale + turned) / (1 - kept)
      : (2 * sine * scale + kept * (turned + this.atEnd * h)) / (1 - kept * kept);
    this.lagAtEnd = turned + this.freeLag * kept;
  }

  /** How far S departs from its start in a period: at most so much below and so much above; V/V. */
  get swing(): readonly [number, number] {
    if (this.knownSwing === null) {
      // Between two points it moves by less than a step of the steepest drive.
      const step = this.ratio / swingPoints;
      const at = Array.from({ length: swingPoints }, (_, k) => this.steady(k / swingPoints, 1, 0));
      const least = Math.min(...at) - step;
      const most = Math.max(...at) + step;
      this.knownSwing = [this.settled - least, most - this.settled];
    }
    return this.knownSwing;
  }

  /**
   * The rectified tone itself.
   *
   * @param x - position in the period; periods, 0 ≤ x ≤ 1
   * @returns r(x); V/V
   */
  drive(x: number): number {
    return x < this.half ? Math.max(0, sinTurns(x * this.turnsPerPeriod)) : 0;
  }

  /**
   * Growth of the frame in which the charge does not leak.
   *
   * @param x - position; periods
   * @returns E(x); dimensionless
   */
  growth(x: number): number {
    return exp(x * this.ratio);
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
    if (x > this.half) return this.responsePerPeriod;
    const w = this.omegaTau;
    return (growth * (sine - w * cosine) + w) * this.scale;
  }

  /**
   * The steady charge of a level L, in V/V, that changes by L' per time constant: L·S − τL'·Z.
   *
   * @param x - position in the period; periods, 0 ≤ x ≤ 1
   * @param level - L; dimensionless
   * @param slope - τL'; dimensionless
   * @returns the steady part; V/V
   *
   * Source: variation of constants; the response to sin is (sin − ωτ·cos)/(1 + ω²τ²), to cos (cos + ωτ·sin)/(1 + ω²τ²),
   * to e^(−s/τ) it is (s/τ)·e^(−s/τ); what decays follows from the period. Exact case: a fast tone, S = Z = mean of r.
   */
  steady(x: number, level: number, slope: number): number {
    const since = x * this.ratio;
    if (x > this.half) {
      const after = since - this.halfRatio;
      const kept = exp(-after);
      return (level * this.atEnd - slope * (this.lagAtEnd + this.atEnd * after)) * kept;
    }
    const w = this.omegaTau;
    const { scale, free } = this;
    const turns = x * this.turnsPerPeriod;
    const sine = sinTurns(turns);
    const cosine = cosTurns(turns);
    const kept = exp(-since);
    const charge = (sine - w * cosine) * scale + free * kept;
    if (slope === 0) return level * charge;
    const lag =
      ((1 - w * w) * sine - 2 * w * cosine) * scale * scale + (free * since + this.freeLag) * kept;
    return level * charge - slope * lag;
  }
}

/** The same where the tone is so fast that its mean stands for it. */
export class AveragedTone extends RectifiedTone {
  override drive(): number {
    return this.mean;
  }

  override steady(_x: number, level: number, slope: number): number {
    return this.mean * (level - slope);
  }
}
