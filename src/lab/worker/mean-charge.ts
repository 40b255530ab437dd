import { exp } from "../../numeric/index.ts";
import type { RectifiedTone } from "../../stages/receiver/index.ts";

/** What the receiver gets in one burst. */
export interface ReceivedBurst {
  /** Phase of the tone at the start; turns, 0 ≤ phase < 1. */
  readonly phase: number;
  /** Peak amplitude; V. */
  readonly amplitude: number;
  /** Charge at the start; V. */
  readonly charge: number;
}

/**
 * The integrator's voltage without noise, at a moment of a burst.
 *
 *   v(t) = (E(x₀)·v₀ − A·R(x₀) + A·Σ…)/E, period by period of the rectified tone
 *
 * @param tone - the rectified tone
 * @param burst - what is received
 * @param time - after the start of the burst and within it; s, >= 0
 * @returns v; V
 *
 * Source: v' = (A·r − v)/τ, integrated by `RectifiedTone`. Exact case: v = v₀ at t = 0.
 */
export function chargeAt(tone: RectifiedTone, burst: ReceivedBurst, time: number): number {
  const { phase, amplitude, charge } = burst;
  const turns = phase * tone.periodsPerCycle;
  const first = turns - Math.floor(turns);
  const growth = tone.growth(first);
  let framed = growth * charge - amplitude * tone.response(first, growth);
  const position = first + time / tone.period;
  const whole = Math.floor(position);
  for (let k = 0; k < whole; k++) {
    framed = (framed + amplitude * tone.responsePerPeriod) / tone.growthPerPeriod;
  }
  const x = position - whole;
  const grown = tone.growth(x);
  return (framed + amplitude * tone.response(x, grown)) / grown;
}

/**
 * The rectified tone at a moment of a burst.
 *
 * @param tone - the rectified tone
 * @param burst - what is received
 * @param time - after the start of the burst; s, >= 0
 * @returns V
 */
export function toneAt(tone: RectifiedTone, burst: ReceivedBurst, time: number): number {
  const position = burst.phase * tone.periodsPerCycle + time / tone.period;
  return burst.amplitude * tone.drive(position - Math.floor(position));
}

/**
 * What is left of a charge after a silence.
 *
 * @param charge - at its start; V
 * @param time - its length; s, >= 0
 * @param timeConstant - τ; s
 * @param leak - without a leak every burst starts from zero
 */
export function chargeLeft(
  charge: number,
  time: number,
  timeConstant: number,
  leak: boolean,
): number {
  return leak ? charge * exp(-time / timeConstant) : 0;
}
