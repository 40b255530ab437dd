import { cosTurns, sinTurns } from "../../numeric/index.ts";
import type { Environment, OscillatorParameters } from "./oscillator-parameters.ts";

const day = 86400;
/** ∫ of a daily cosine: day/2π; s. */
const dayRadian = day / (2 * Math.PI);
/** Relative accuracy to which true time is solved for, and a limit no sane rate comes near. */
const solved = 1e-18;
const mostIterations = 40;

/**
 * The deterministic course of an oscillator's rate: offset, ageing, temperature.
 *
 *   y(t) = offset + ageing·t + L·θ(t) + P·θ(t)²,  θ(t) = T(t) − T₀
 *   T(t) = mean + ramp·t + A·cos(2π(t − peak)/day)
 *
 * t is true time. The oscillator's own (nominal) time is u = t + ∫y dt, exactly, so a constant y is a
 * frequency f₀·(1 + y), and the time error is x(u) = u − t. It is given in two parts: the slope
 * y₀/(1 + y₀) of the constant part y₀ = offset + L·θ̄ + P·(θ̄² + A²/2), with θ̄ from the mean at the start,
 * and the rest, which stays small enough to be one number.
 */
export class RateCourse {
  /** y₀: the constant part of the rate; dimensionless. */
  readonly steadyRate: number;
  /** Slope of the time error against nominal time that y₀ alone makes: y₀/(1 + y₀); dimensionless. */
  readonly steadySlope: number;
  /** True time over nominal time by y₀ alone: 1/(1 + y₀); dimensionless. */
  private readonly scale: number;
  private readonly agingPerSecond: number;
  private readonly linear: number;
  private readonly parabolic: number;
  private readonly start: number;
  private readonly ramp: number;
  private readonly swing: number;
  private readonly peak: number;
  private readonly isSteady: boolean;
  private readonly single = new Float64Array(1);
  private readonly followsTemperature: boolean;

  /**
   * @param parameters - offset, ageing and temperature coefficients of the oscillator
   * @param environment - the temperature it stands in
   * @throws RangeError if a number is not finite, or the constant part of the rate is not above −1
   */
  constructor(
    parameters: Pick<OscillatorParameters, "fractionalOffset" | "agingPerDay" | "temperature">,
    environment: Environment,
  ) {
    const { linearPerK, parabolicPerK2, turnoverC } = parameters.temperature;
    this.agingPerSecond = parameters.agingPerDay / day;
    this.linear = linearPerK;
    this.parabolic = parabolicPerK2;
    this.start = environment.meanC - turnoverC;
    this.ramp = environment.rampKPerDay / day;
    this.swing = environment.dailyAmplitudeK;
    this.peak = environment.dailyPeak;
    this.steadyRate =
      parameters.fractionalOffset +
      linearPerK * this.start +
      parabolicPerK2 * (this.start * this.start + 0.5 * this.swing * this.swing);
    if (!(this.steadyRate > -1 && this.steadyRate < Infinity)) {
      throw new RangeError(
        `RateCourse: constant part of the rate must be > -1, got ${this.steadyRate}`,
      );
    }
    this.steadySlope = this.steadyRate / (1 + this.steadyRate);
    this.scale = 1 / (1 + this.steadyRate);
    const hasCoefficient = linearPerK !== 0 || parabolicPerK2 !== 0;
    this.followsTemperature = hasCoefficient && (this.ramp !== 0 || this.swing !== 0);
    this.isSteady = this.agingPerSecond === 0 && !this.followsTemperature;
    const rest = [this.agingPerSecond, this.linear, this.parabolic, this.ramp, this.peak];
    if (!rest.every(Number.isFinite)) {
      throw new RangeError(`RateCourse: parameters must be finite, got ${rest.join(", ")}`);
    }
  }

  /**
   * Rate at a moment of true time.
   *
   * @param t - true time since the start; s
   * @returns y(t) = f/f₀ − 1; dimensionless. Exact case: offset alone gives the offset
   */
  rateAt(t: number): number {
    const angle = (t - this.peak) / day;
    const wave = this.swing * cosTurns(angle);
    const mean = this.start + this.ramp * t;
    const drift =
      this.agingPerSecond * t +
      this.linear * (this.ramp * t + wave) +
      this.parabolic * (this.ramp * t * (2 * this.start + this.ramp * t) + 2 * mean * wave) +
      // A²·cos² less its mean A²/2, which is in the steady rate.
      0.5 * this.parabolic * this.swing * this.swing * cosTurns(2 * angle);
    return this.steadyRate + drift;
  }

  /**
   * Integral of the rate's variable part.
   *
   *   V(t) = ∫₀ᵗ (y − y₀) dt, in closed form
   *
   * @param t - true time since the start; s
   * @returns V; s. Exact case: ageing a a second alone gives a·t²/2
   */
  variableIntegral(t: number): number {
    const aged = 0.5 * this.agingPerSecond * t * t;
    return this.followsTemperature ? aged + this.temperatureIntegral(t) : aged;
  }

  /** The part of `variableIntegral` that temperature makes; s. */
  private temperatureIntegral(t: number): number {
    const angle = (t - this.peak) / day;
    const first = -this.peak / day;
    const sine = sinTurns(angle);
    const wave = this.swing * dayRadian * (sine - sinTurns(first));
    const mean = this.start + this.ramp * t;
    const ramped = 0.5 * this.ramp * t * t;
    const squared =
      t * t * this.ramp * (this.start + (this.ramp * t) / 3) +
      // ∫ 2·(start + ramp·t)·A·cos, by parts.
      2 *
        this.swing *
        dayRadian *
        (mean * sine -
          this.start * sinTurns(first) +
          this.ramp * dayRadian * (cosTurns(angle) - cosTurns(first))) +
      0.25 * this.swing * this.swing * dayRadian * (sinTurns(2 * angle) - sinTurns(2 * first));
    return this.linear * (ramped + wave) + this.parabolic * squared;
  }

  /**
   * Time error at a nominal time, less the steady slope's part.
   *
   *   x(u) − s₀·u = V(t)/(1 + y₀),  t = u − x(u), solved by iteration
   *
   * @param u - nominal time n·T since the start; s
   * @returns the variable part of x; s, positive = early
   * @throws RangeError if the rate changes so violently that true time cannot be solved for
   */
  variableTimeError(u: number): number {
    const { single } = this;
    single[0] = u;
    this.variableTimeErrors(single, 1, single);
    return single[0]!;
  }

  /**
   * Time errors at many nominal times, as `variableTimeError` gives them: no number leaves the loop in a box.
   *
   * @param u - nominal times since the start; s
   * @param times - how many
   * @param out - receives the variable part of x at each; s. May be `u`
   * @throws RangeError as `variableTimeError` does
   */
  variableTimeErrors(u: Float64Array, times: number, out: Float64Array): void {
    if (this.isSteady) {
      out.fill(0, 0, times);
      return;
    }
    const { scale } = this;
    for (let k = 0; k < times; k++) {
      const steady = u[k]! * scale;
      let error = 0;
      let change = Number.POSITIVE_INFINITY;
      // Below the resolution of t itself another round would only repeat the rounding.
      const enough = solved * Math.abs(u[k]!);
      for (let i = 0; change > enough && change > 2.3e-16 * Math.abs(error); i++) {
        if (i === mostIterations) {
          throw new RangeError(
            `RateCourse.variableTimeError: rate must vary slowly, got no solution at u = ${u[k]} s`,
          );
        }
        const next = scale * this.variableIntegral(steady - error);
        change = Math.abs(next - error);
        error = next;
      }
      out[k] = error;
    }
  }
}
