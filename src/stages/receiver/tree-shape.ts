import type { ReceivedTone } from "./received-tone.ts";
import type { RectifiedTone } from "./rectified-tone.ts";

/** How wrong a crossing in one cell may be, for treating the boundary as straight; s. */
const cellError = 2e-8;

/** Knots a tree may have. */
const mostKnots = 16384;

/**
 * How finely the boundary is cut: periods of the root and cells of a period, as powers of two.
 *
 * A straight piece misses a curve by at most h²·f''/8, a third of it beside the mean (the mean is taken
 * out, see `BoundaryTree`): A·ω·h²/(24τ) from the tone, θ·h²/(24τ²) from the leak. Over the steepest
 * approach (A − θ)/τ that is a time, held to 20 ns. The root spans half the time constant (no leak:
 * of the mean delay), and not more periods than the burst.
 *
 * @param theta - the threshold; V
 * @param tone - what is received
 * @param rectified - the rectified tone
 * @param length - longest stretch of one level; s
 * @returns [period levels, cell levels]; integers >= 0 and >= 2
 *
 * Source: own derivation. Exact case: none; the error is a bound.
 */
export function treeShape(
  theta: number,
  tone: ReceivedTone,
  rectified: RectifiedTone,
  length: number,
): [number, number] {
  const { timeConstant: tau, gain, keeps } = rectified.integrator;
  const omega = 2 * Math.PI * tone.carrierHz;
  const amplitude = gain * tone.amplitudeV;
  const steepest = Math.max(amplitude - theta, 0.05 * amplitude) / tau;
  const bend = (amplitude * omega) / tau + theta / (tau * tau);
  const width = Math.sqrt((24 * cellError * steepest) / bend);
  let cellLevels = 2;
  let cells = 4;
  while (rectified.period > width * cells && cells < mostKnots) {
    cells *= 2;
    cellLevels++;
  }
  const delay = (Math.PI * theta * tau) / (2 * amplitude);
  const span = 0.25 * (keeps ? tau : delay);
  let periodLevels = 0;
  let periods = 2;
  while (periods * rectified.period <= Math.min(span, length) && periods * cells <= mostKnots) {
    periods *= 2;
    periodLevels++;
  }
  return [periodLevels, cellLevels];
}
