import { sinTurns } from "../../numeric/index.ts";
import type { RectifiedTone } from "./rectified-tone.ts";

/** Halvings of a bracket until nothing is left of it in double precision. */
const halvings = 60;

/**
 * Where within one period of the rectified tone a receiver without noise first reaches its threshold.
 *
 *   g(x) = u₀ + A·R(x) − θ·E(x),  g' ∝ A·r(x) − θ (no leak: A·r(x))
 *
 * g rises only while A·r > θ, between two positions symmetric about the crest; it is bracketed there.
 *
 * @param tone - the rectified tone
 * @param threshold - θ; V
 * @param amplitude - A; V, >= 0
 * @param charge - u₀, the charge the receiver would have at x = 0; V
 * @param from - position from which to look; the charge there is below θ; 0 <= from <= 1
 * @param to - position up to which to look; from <= to <= 1
 * @returns position of the first crossing; periods. NaN where there is none
 *
 * Source: the circuit equation, integrated in closed form; the root by bisection.
 */
export function noiseFreeCrossing(
  tone: RectifiedTone,
  threshold: number,
  amplitude: number,
  charge: number,
  from: number,
  to: number,
): number {
  const above = (x: number) => {
    const growth = tone.growth(x);
    return charge + amplitude * tone.response(x, growth) - threshold * growth;
  };
  const level = tone.leak ? threshold / amplitude : 0;
  if (!(level < 1) || !(amplitude > 0)) return Number.NaN;
  const crest = tone.periodsPerCycle === 2 ? 0.5 : 0.25;
  // Where A·r rises through θ: sin(2π·turns) = level on the first quarter of a turn.
  let low = 0;
  let high = 0.25;
  for (let i = 0; i < halvings; i++) {
    const middle = 0.5 * (low + high);
    if (sinTurns(middle) < level) low = middle;
    else high = middle;
  }
  const rises = low * tone.periodsPerCycle;
  let a = Math.max(from, rises);
  let b = Math.min(to, 2 * crest - rises);
  if (!(a < b) || above(b) < 0) return Number.NaN;
  for (let i = 0; i < halvings; i++) {
    const middle = 0.5 * (a + b);
    if (above(middle) < 0) a = middle;
    else b = middle;
  }
  return b;
}
