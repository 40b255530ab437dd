import type { ReceivedTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";
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
 * @param receiver - the detector
 * @param tone - what it receives
 * @param rectified - the rectified tone
 * @returns [period levels, cell levels]; integers >= 0 and >= 2
 *
 * Source: own derivation. Exact case: none; the error is a bound.
 */
export function treeShape(
  receiver: ReceiverParameters,
  tone: ReceivedTone,
  rectified: RectifiedTone,
): [number, number] {
  const omega = 2 * Math.PI * tone.carrierHz;
  const tau = receiver.timeConstant;
  const theta = receiver.thresholdV;
  const leak = receiver.leak ? theta : 0;
  const steepest = Math.max(tone.amplitudeV - leak, 0.05 * tone.amplitudeV) / tau;
  const bend = (tone.amplitudeV * omega) / tau + leak / (tau * tau);
  const width = Math.sqrt((24 * cellError * steepest) / bend);
  let cellLevels = 2;
  let cells = 4;
  while (rectified.period > width * cells && cells < mostKnots) {
    cells *= 2;
    cellLevels++;
  }
  const delay = (Math.PI * theta * tau) / (2 * tone.amplitudeV);
  const span = 0.25 * (receiver.leak ? tau : delay);
  let periodLevels = 0;
  let periods = 2;
  while (periods * rectified.period <= Math.min(span, tone.burst) && periods * cells <= mostKnots) {
    periods *= 2;
    periodLevels++;
  }
  return [periodLevels, cellLevels];
}
