import type { ReceivedTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";
import type { RectifiedTone } from "./rectified-tone.ts";

/** How the delay of a burst is to be computed. */
export interface BurstGrid {
  /** Grid points in a period of the rectified tone; 0: the mean of the tone is enough. */
  readonly perPeriod: number;
  /** Start phases computed in a period of the rectified tone. */
  readonly phases: number;
  /** Spacing of the grid; s. */
  readonly step: number;
  /** True where the noise hardly moves during the approach: it is then a spread of the threshold. */
  readonly isFrozen: boolean;
}

/** Grid points in a period beyond which the noise counts as frozen, if the burst has many periods. */
const mostPerPeriod = 64;

/** Most grid points in a burst. */
const mostSteps = 4000;

/**
 * The grid on which the first-passage density of a burst is computed.
 *
 * A step is at most 0.4·σ over the steepest approach (A − θ)/τ, and a sixteenth (near the threshold's limit,
 * where hundreds of periods count, an eighth) of a period and of the time constant. A tone whose ripple is
 * below a twentieth of the noise is replaced by its mean, a noise that would ask for more than 64 points a
 * period (2000 a burst) by a spread of the threshold.
 *
 * @param receiver - the detector, noise_v > 0
 * @param tone - the tone and the burst
 * @param rectified - the rectified tone
 * @returns the grid
 *
 * Source: own rule, from the convergence of the mean delay (1e-4 of it).
 */
export function burstGrid(
  receiver: ReceiverParameters,
  tone: ReceivedTone,
  rectified: RectifiedTone,
): BurstGrid {
  const { noiseV: noise, thresholdV: theta, timeConstant: tau, leak } = receiver;
  const amplitude = tone.amplitudeV;
  const pull = leak ? theta : 0;
  const mean = (rectified.turnsPerPeriod === 0.5 ? 2 : 1) / Math.PI;
  const approach = Math.max(amplitude - pull, 0.1 * amplitude) / tau;
  const width = (0.4 * noise) / approach;
  const isHovering = leak && amplitude * mean - theta < 6 * noise;
  const least = isHovering ? 8 : 16;
  const finest = Math.max(rectified.period / width, least * rectified.ratio, least);
  let perPeriod = least;
  const most = Math.max(mostPerPeriod, (0.5 * mostSteps * rectified.period) / tone.burst);
  while (perPeriod < finest && perPeriod <= most) perPeriod *= 2;
  const ripple = 0.07 * amplitude * rectified.ratio;
  const isFast =
    ripple < 0.05 * noise || (tone.burst / rectified.period) * perPeriod > 4 * mostSteps;
  if (rectified.period < 4 * width && isFast) {
    const step = Math.max(Math.min(width, tau / 64, tone.burst / 64), tone.burst / mostSteps);
    return { perPeriod: 0, phases: 1, step, isFrozen: false };
  }
  const smear = (noise / Math.max(amplitude * mean - pull, 0.3 * amplitude)) * tau;
  const phases = isHovering ? 8 : smear > 0.35 * rectified.period ? 16 : 32;
  // A noise whose correlation time is within a period never is.
  const isFrozen = perPeriod > most && rectified.ratio < 0.25;
  if (perPeriod > most && !isFrozen) perPeriod = 256;
  perPeriod = Math.max(perPeriod, phases);
  return { perPeriod, phases, step: rectified.period / perPeriod, isFrozen };
}
