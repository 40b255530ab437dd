import { exp } from "../../numeric/index.ts";
import type { Integrator } from "./integrator.ts";

/**
 * Charge and noise of the detector at the moment last considered. They decay together, so u = v + noise alone is
 * followed, as a mean and a variance: one Gaussian deviate then leads from a crossing to far into the next burst.
 */
export class DetectorState {
  /** Mean of u; V. */
  mean = 0;
  /** Variance of u about it, in units of noise². */
  variance = 0;
  private readonly integrator: Integrator;

  /** @param integrator - the circuit */
  constructor(integrator: Integrator) {
    this.integrator = integrator;
  }

  /** Forget all: the state after a long silence, no charge and stationary noise. */
  begin(): void {
    this.mean = 0;
    this.variance = this.integrator.keeps && this.integrator.noise > 0 ? 1 : 0;
  }

  /**
   * Silence: charge and noise decay; without a leak the next burst begins from zero.
   *
   * @param dt - s, >= 0
   */
  rest(dt: number): void {
    if (this.integrator.keeps) this.pass(dt, 0);
    else this.begin();
  }

  /**
   * So much time passes.
   *
   * @param dt - s, >= 0
   * @param charge - what it would bring into an empty receiver; V
   */
  pass(dt: number, charge: number): void {
    const decay = exp(-dt / this.integrator.timeConstant);
    this.mean = this.mean * decay + charge;
    if (this.integrator.noise > 0) this.variance = 1 + (this.variance - 1) * decay * decay;
  }
}

/** A part of a burst, gone through by the detector. */
export interface Stretch {
  /**
   * Goes through it in search of a crossing; the state, below the threshold at its start, is then that at its end.
   *
   * @param phaseTurns - phase of the tone at its start; turns, >= 0
   * @param amplitude - peak amplitude of the burst; V, >= 0
   * @returns time from its start to the first crossing; s, NaN where there is none
   */
  cross(phaseTurns: number, amplitude: number): number;
  /** The same where nobody asks for a crossing. */
  pass(phaseTurns: number, amplitude: number): void;
}
