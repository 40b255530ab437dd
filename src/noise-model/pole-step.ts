import { relaxationStep } from "../noise/index.ts";

/**
 * What a block of equal steps does to the phase through one rate process f, a relaxation process or a random walk:
 *
 *   f' = decay·f + w_f,  φ' = φ + gain·f + w_φ,  ȳ = φ + mean·f + w_y
 *
 * with ȳ the mean of the phase at the steps' ends. All covariances are exact.
 */
export interface PoleStep {
  readonly decay: number;
  readonly gain: number;
  readonly mean: number;
  /** Covariances of w_φ, w_f and w_y. */
  readonly phase: number;
  readonly phaseRate: number;
  readonly rate: number;
  readonly meanPhase: number;
  readonly meanRate: number;
  readonly meanMean: number;
}

/** One step of a relaxation process with the stated variance and time constant. */
export function relaxingStep(dt: number, time: number, variance: number): PoleStep {
  const { decay, spread, weight, residual } = relaxationStep(dt / time);
  const rate = 2 * variance * spread;
  const lever = time * weight;
  const phase = lever * lever * rate + 2 * variance * time * time * residual;
  return oneStep(decay, lever * (1 + decay), phase, lever * rate, rate);
}

/** One step of a random walk of the rate, with variance q a unit of time. */
export function walkingStep(dt: number, q: number): PoleStep {
  return oneStep(1, dt, (q * dt * dt * dt) / 3, 0.5 * q * dt * dt, q * dt);
}

function oneStep(decay: number, gain: number, phase: number, phaseRate: number, rate: number) {
  return {
    decay,
    gain,
    mean: gain,
    phase,
    phaseRate,
    rate,
    meanPhase: phase,
    meanRate: phaseRate,
    meanMean: phase,
  };
}

/**
 * The block of twice as many steps.
 *
 * @param s - a block
 * @returns two of it, one after the other
 *
 * Source: own derivation, by putting one block into the other. Exact case: a random walk of 1 + 1 steps has the phase
 * variance q·(2dt)³/3.
 */
export function doubled(s: PoleStep): PoleStep {
  const { decay: e, gain: b, mean: c } = s;
  // Second half: starts from f' and φ', adds noise of its own.
  return {
    decay: e * e,
    gain: b + b * e,
    mean: 0.5 * (c + b + c * e),
    rate: e * e * s.rate + s.rate,
    phaseRate: e * (s.phaseRate + b * s.rate) + s.phaseRate,
    phase: s.phase + 2 * b * s.phaseRate + b * b * s.rate + s.phase,
    meanRate: 0.5 * (e * (s.meanRate + s.phaseRate + c * s.rate) + s.meanRate),
    meanPhase:
      0.5 *
      (s.meanPhase +
        s.phase +
        c * s.phaseRate +
        b * (s.meanRate + s.phaseRate + c * s.rate) +
        s.meanPhase),
    meanMean:
      0.25 *
      (s.meanMean +
        2 * (s.meanPhase + c * s.meanRate) +
        s.phase +
        2 * c * s.phaseRate +
        c * c * s.rate +
        s.meanMean),
  };
}
