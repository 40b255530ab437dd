import type { NoiseLevels } from "./noise-levels.ts";

/** Relaxation processes a decade of time constant: the spectrum then ripples by 0.08 %. */
const perDecade = 2;
/** √10, the ratio of neighbouring time constants. */
const ratio = Math.sqrt(10);
/** Relaxation faster than this part of the finest time scale looked at is white to the observer. */
const whitePart = 1e-3;

/**
 * A flicker spectrum as a sum of relaxation (Ornstein-Uhlenbeck) processes of equal variance, those too
 * fast for the observer summed into one white term.
 */
export interface RelaxationLadder {
  /** Time constants kept as processes of their own, ascending; s. */
  readonly timeConstants: Float64Array;
  /** Variance of each process, in units of the level: ln 10 / (processes a decade). */
  readonly variancePerLevel: number;
  /** Time constants of the processes that are faster than the observer can tell, ascending; s. */
  readonly fastTimes: Float64Array;
  /** Sum of those, with all that would lie below the ladder's end where that is as fast; s. */
  readonly fastTime: number;
  /** That, as the time constant of one process more where the observer can tell it from white; s, else null. */
  readonly end: number | null;
}

/**
 * The ladder of relaxation processes that makes a flicker spectrum h/f.
 *
 *   Σ 4·v·T_k/(1 + (2πf·T_k)²) ≈ h/f,  v = h·ln 10/n,  T_k = T_min·10^((k + ½)/n),  n = 2
 *
 * T_min = 1/(2π·bandwidth); the last cell holds the longest time constant. Each process stands in the
 * middle of its cell of log T, so that as phase noise the ladder has the Allan variance
 * h₁·(3γ − ln 2 + 3·ln(2πf_h·τ))/(4π²τ²) of flicker PM with a band that ends at f_h. As frequency noise
 * all below T_min is missed, together as much as one process more of 0.82·T_min: white to a slow observer
 * (`fastTime`), that process to others (`end`), such as a loop, to which white noise would go on beyond f_h. Through
 * a loop of 1/ω then x = ∫y has the rms of a spectrum that ends at f_h, within 0.2 % for f_h from 10·ω/2π up (ζ = 0.8;
 * 1.2 % at ζ = 3). Both ends belong to the stage, never to the length of a run.
 *
 * A process with T < 10⁻³·`finestScale` counts as fast: its integral over a step dt is then white with
 * 2·v·T·dt, whose exact value is smaller by the part T/dt; its Allan variance by 1.5·T/dt, at most 0.15 %.
 *
 * @param levels - bandwidth and longest time constant; Hz, s
 * @param finestScale - shortest time over which anybody looks at the noise; s, > 0
 * @returns time constants in s and the sums of what is too fast
 * @throws RangeError if finestScale, bandwidth or the longest time constant is not above 0
 *
 * Source: superposition of Lorentzian spectra, as in Kasdin, Proc. IEEE 83, 802 (1995); placing and
 * fill: own derivation. Exact case: bandwidth 1/2π Hz, longest 10 s, finest scale 1 s: T = 10^¼, 10^¾ s.
 */
export function relaxationLadder(
  levels: Pick<NoiseLevels, "bandwidthHz" | "flickerLongest">,
  finestScale: number,
): RelaxationLadder {
  if (!(finestScale > 0 && finestScale < Infinity)) {
    throw new RangeError(`relaxationLadder: finestScale must be > 0 s, got ${finestScale}`);
  }
  const { bandwidthHz, flickerLongest } = levels;
  if (!(bandwidthHz > 0 && bandwidthHz < Infinity)) {
    throw new RangeError(`relaxationLadder: bandwidthHz must be > 0 Hz, got ${bandwidthHz}`);
  }
  if (!(flickerLongest > 0 && flickerLongest < Infinity)) {
    throw new RangeError(`relaxationLadder: flickerLongest must be > 0 s, got ${flickerLongest}`);
  }
  const shortest = 1 / (2 * Math.PI * bandwidthHz);
  const kept: number[] = [];
  const fast: number[] = [];
  // All below the ladder's end, a geometric series with the ratio 1/√10.
  const below = (shortest * Math.sqrt(ratio)) / (ratio - 1);
  const isEndSlow = below >= whitePart * finestScale;
  let fastTime = isEndSlow ? 0 : below;
  let time = shortest * Math.sqrt(ratio);
  // A cell is taken while it begins below the longest time constant, rounding apart.
  while (time < flickerLongest * Math.sqrt(ratio) * (1 - 1e-9)) {
    if (time < whitePart * finestScale) {
      fast.push(time);
      fastTime += time;
    } else {
      kept.push(time);
    }
    time *= ratio;
  }
  return {
    timeConstants: Float64Array.from(kept),
    variancePerLevel: Math.LN10 / perDecade,
    fastTimes: Float64Array.from(fast),
    fastTime,
    end: isEndSlow ? below : null,
  };
}
