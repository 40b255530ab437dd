import { type BurstGrid, BurstPaths } from "./burst-path.ts";
import { type BurstLevel, distanceAt } from "./frozen-density.ts";
import type { BurstStart } from "./passage-density.ts";
import { burstLength, type ReceivedTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";
import { AveragedTone, RectifiedTone } from "./rectified-tone.ts";

/** How the crossing of a burst is to be computed. */
export interface BurstPlan extends BurstGrid {
  readonly tone: RectifiedTone;
  /** True where the mean of the tone stands for it. */
  readonly isAveraged: boolean;
  /** True where the noise hardly moves during the approach: it is then a spread of the threshold. */
  readonly isFrozen: boolean;
  /** True where the path only just reaches the threshold, so that much depends on a little amplitude. */
  readonly isHovering: boolean;
  /** Start phases in a period of the rectified tone. */
  readonly phases: number;
  /** Every burst has crossed by then, as good as; s, at most the length of a burst. */
  readonly until: number;
}

/** Points in a period of a first look, and where noise is frozen; where nothing is noisy and the law of delays jumps. */
const look = 32;
const frozenRows = 64;
const quietRows = 512;

/** Most points of a first look; a tone with more periods in a burst is averaged. */
const mostLooks = 65536;

/** Most points in a period for noise that forgets within four of them, and for noise that is quicker. */
const mostRows = 64;
const mostQuickRows = 1024;

/** A burst of so many points costs nothing to speak of. */
const fewPoints = 1024;

/** Most steps in the noise over the steepest approach. */
const finestNoise = 0.4;

/** Most pairs of points, a nanosecond each, that a law may cost, more where the level is not even; fewest start phases and points in a period. */
const mostWork = 1e8;
const unevenWork = 16;
const fewestPhases = 4;
const fewestRows = 8;

/** Within so many standard deviations of the threshold a path counts as near, and beyond so many nothing is left to cross. */
const near = 6;
const beyond = 9;

/**
 * The grid on which the law of a burst's crossing is computed.
 *
 * A step is at most 0.4·σ over the steepest approach, σ the noise; a third of the time in which the threshold crosses
 * what the noise does in one period, √(2T/τ)·σ, since that is how sharply a crest cuts off those it leaves over; and a
 * sixteenth of a period and of the time constant (where hundreds of periods count an eighth). A tone whose ripple is below a
 * twentieth of the noise is replaced by its mean. Noise that would ask for more than 64 points a period is a spread of
 * the threshold, unless the path only just reaches it. What would take long is computed at fewer phases, and coarser.
 *
 * @param receiver - the detector
 * @param received - the tone and the burst
 * @param level - threshold, amplitude, noise
 * @param start - u when the burst begins
 * @param nodes - amplitudes at which it is to be computed
 * @param isFree - whether it is to be computed for all start phases
 * @returns the grid
 * @throws RangeError as `RectifiedTone`
 *
 * Source: own rules, from the convergence of mean and spread (1e-4 of the spread).
 */
export function burstPlan(
  receiver: ReceiverParameters,
  received: ReceivedTone,
  level: BurstLevel,
  start: BurstStart,
  nodes: number,
  isFree: boolean,
): BurstPlan {
  const tone = new RectifiedTone(receiver, received);
  const { period, ratio, integrator } = tone;
  const { timeConstant, gain } = integrator;
  const burst = burstLength(received);
  const { amplitude, threshold, noise } = level;
  // The noise gathered by the mean delay, where it begins from nothing.
  const reached = Math.min(burst, (timeConstant * threshold) / (amplitude * gain * tone.mean));
  const sigma = noise * Math.min(1, integrator.keeps ? 1 : Math.sqrt((2 * reached) / timeConstant));
  const periods = burst / period;
  const averaged = {
    tone: new AveragedTone(receiver, received),
    isAveraged: true,
    phases: 1,
    until: burst,
  };
  const coarse = burst / 2048;
  const fine = burst / 16384;
  if (periods * look > mostLooks || 0.07 * amplitude * gain * ratio < 0.05 * sigma) {
    const paths = new BurstPaths(receiver, received, averaged.tone, { rows: 1, step: coarse });
    const { slope, isHovering } = approach(paths, level, start);
    const step = Math.min((0.1 * sigma) / slope, timeConstant / 256, burst / 512);
    const isFrozen = step < coarse && !isHovering;
    return {
      ...averaged,
      isHovering,
      rows: 1,
      step: isFrozen || noise === 0 ? fine : Math.max(step, coarse),
      isFrozen: isFrozen || noise === 0,
    };
  }
  const step = period / look;
  const paths = new BurstPaths(receiver, received, tone, { rows: look, step });
  const { slope, isHovering, from, to, until } = approach(paths, level, start);
  const window = Math.min(to - from, 2 + 10 / ratio);
  const quiet = noise === 0 && level.relative === 0 && start.variance === 0;
  const frozen = quiet ? quietRows : frozenRows;
  const plain = { tone, isAveraged: false, isHovering, until: burst };
  const onFrozen = {
    ...plain,
    isFrozen: true,
    rows: frozen,
    step: period / frozen,
    phases: isFree ? frozen : 1,
    until: Math.min(burst, until + 2 * period),
  };
  if (noise === 0) return onFrozen;
  const finest = Math.min(finestNoise * sigma, (noise * Math.sqrt(2 * ratio)) / 3) / slope;
  const least = isHovering ? fewestRows : 2 * fewestRows;
  const wanted = Math.max(period / finest, least * ratio, least);
  const most = Math.max(ratio < 0.25 ? mostRows : mostQuickRows, fewPoints / periods);
  let rows = least;
  while (rows < wanted && rows < most) rows *= 2;
  if (rows < wanted && !isHovering) return onFrozen;
  let phases = isFree ? (periods < 2 ? 64 : 16) : 1;
  const isEven = from * look >= paths.evenFrom && to * look <= paths.evenTo;
  const work = () => (isEven ? 1 : unevenWork) * phases * nodes * rows * window * rows * window;
  while (work() > mostWork && phases > fewestPhases) phases /= 2;
  while (work() > mostWork && rows > fewestRows) rows /= 2;
  rows = Math.max(rows, phases);
  return { ...plain, isFrozen: false, rows, step: period / rows, phases };
}

/**
 * How steeply the path comes up to the threshold (V/s), whether it only just reaches it, and from which to which period of
 * the grid it is near.
 */
function approach(paths: BurstPaths, level: BurstLevel, start: BurstStart) {
  const path = paths.from(0);
  const { step, rows } = paths.grid;
  let slope = level.threshold / (paths.steps * step);
  let nearest = distanceAt(paths, path, level, start, 0);
  let from = -1;
  let to = paths.steps;
  let i = 1;
  for (; i <= paths.steps && nearest > -beyond; i++) {
    const z = distanceAt(paths, path, level, start, i);
    const isNear = nearest > -near;
    nearest = Math.min(nearest, z);
    if (z > near || !isNear) continue;
    if (from < 0) from = i - 1;
    to = i;
    slope = Math.max(slope, (level.amplitude * (path.charge[i]! - path.charge[i - 1]!)) / step);
  }
  return {
    slope,
    isHovering: nearest > -near,
    from: Math.max(0, from) / rows,
    to: to / rows,
    until: nearest > -beyond ? Number.POSITIVE_INFINITY : i * step,
  };
}
