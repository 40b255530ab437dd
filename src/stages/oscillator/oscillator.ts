import { PowerLawProcess } from "../../noise/index.ts";
import type { RandomStream } from "../../numeric/index.ts";
import type { Environment, OscillatorParameters } from "./oscillator-parameters.ts";
import { RateCourse } from "./rate-course.ts";

/**
 * An oscillator: a deterministic course of its rate and five power-law noises.
 *
 * The time error at nominal time u = n/f₀ is
 *
 *   x(u) = s₀·u + x_v(u) + x_FM(u) + x_PM
 *
 * with s₀ the `steadySlope` of the constant part of the rate, x_v the rest of the deterministic course,
 * x_FM the accumulated frequency noise and x_PM the phase noise of this edge. They are given one by
 * one, since one double holds no picoseconds beside the seconds of s₀·u. Noise is evaluated at nominal time.
 */
export class Oscillator {
  readonly parameters: OscillatorParameters;
  /** Deterministic course of the rate. */
  readonly course: RateCourse;
  /** Random part. */
  readonly noise: PowerLawProcess;

  /**
   * @param parameters - the oscillator
   * @param environment - temperature it stands in
   * @param finestStep - shortest time over which anybody looks at it; s, > 0
   * @param stream - its random stream
   * @param edgeStream - stream of the independent deviates of edges (see `PowerLawProcess`)
   * @param hasStrides - as of `PowerLawProcess`
   * @throws RangeError if a parameter makes no oscillator
   */
  constructor(
    parameters: OscillatorParameters,
    environment: Environment,
    finestStep: number,
    stream: RandomStream,
    edgeStream: RandomStream = stream,
    hasStrides = true,
  ) {
    if (!(parameters.nominalHz > 0 && parameters.nominalHz < Infinity)) {
      throw new RangeError(`Oscillator: nominalHz must be > 0 Hz, got ${parameters.nominalHz}`);
    }
    this.parameters = parameters;
    this.course = new RateCourse(parameters, environment);
    this.noise = new PowerLawProcess(parameters.noise, finestStep, stream, edgeStream, hasStrides);
  }

  /** Slope s₀ of the time error against nominal time; dimensionless. */
  get steadySlope(): number {
    return this.course.steadySlope;
  }

  /**
   * Moves the noise on by equal steps of nominal time (`PowerLawProcess.advance`).
   *
   * @param dt - step; s, > 0
   * @param steps - how many; from 1 to `mostSteps`
   * @throws RangeError if dt is not a finite number above 0
   */
  advance(dt: number, steps = 1): void {
    this.noise.advance(dt, steps);
  }

  /**
   * Deterministic time error at a nominal time, less the steady slope's part (`RateCourse`).
   *
   * @param u - nominal time since the start; s
   * @returns x_v(u); s, positive = early
   */
  variableTimeError(u: number): number {
    return this.course.variableTimeError(u);
  }

  /**
   * The same at many nominal times.
   *
   * @param u - nominal times since the start; s
   * @param times - how many
   * @param out - receives x_v at each; s
   */
  variableTimeErrors(u: Float64Array, times: number, out: Float64Array): void {
    this.course.variableTimeErrors(u, times, out);
  }

  /**
   * Deterministic rate at a moment of true time.
   *
   * @param t - true time since the start; s
   * @returns y(t) = f/f₀ − 1; dimensionless
   */
  rateAt(t: number): number {
    return this.course.rateAt(t);
  }

  /** Accumulated frequency noise x_FM where the noise stands; s. */
  get accumulated(): number {
    return this.noise.accumulated;
  }

  /**
   * Phase noise of one edge where the noise stands: flicker PM, and a new deviate of white PM at each call.
   *
   * @returns x_PM; s
   */
  edgeNoise(): number {
    return this.noise.phaseNoise() + this.noise.edgeDeviate();
  }
}
