/** A slow swing of the delay, left over where tone and rate stand near a ratio of small whole numbers. */
export interface Beat {
  /** The tone makes nearly p periods in q periods of the rate. */
  readonly p: number;
  readonly q: number;
  /** |q·f_tone − p·f_rate|; Hz, 0 where the ratio is exact. */
  readonly frequencyHz: number;
  /** 1/frequency; s, Infinity where the ratio is exact. */
  readonly period: number;
  /** Time in which one of the q branches of the delay sweeps a whole period of the tone, q/frequency; s. */
  readonly branchSweep: number;
}

/** Largest q looked at: with plain gating its swing is a fortieth of the tone's period. */
const largestQ = 12;

/** A beat slower than this part of the rate is a slow swing. */
const slow = 0.05;

/**
 * Beats between a tone that runs on freely and the rate of the bursts cut from it.
 *
 *   f_tone/f_rate ≈ p/q:  beat frequency |q·f_tone − p·f_rate|
 *
 * @param toneHz - frequency of the tone as the detector sees it: that of the carrier with a half-wave
 *   rectifier, twice that with a full-wave one; Hz, > 0
 * @param rateHz - bursts a second; Hz, > 0
 * @returns beats slower than a twentieth of the rate with q up to 12, by rising q: the first dominates
 * @throws RangeError if a frequency is not positive
 *
 * Source: own derivation; `delaySwing` says how far the delay swings. Exact case: an exact ratio has frequency 0.
 */
export function beats(toneHz: number, rateHz: number): Beat[] {
  if (!(toneHz > 0 && rateHz > 0)) {
    throw new RangeError(
      `beats: toneHz and rateHz must be > 0 Hz, got ${toneHz} Hz and ${rateHz} Hz`,
    );
  }
  const found: Beat[] = [];
  for (let q = 1; q <= largestQ; q++) {
    const p = Math.round((q * toneHz) / rateHz);
    const frequencyHz = Math.abs(q * toneHz - p * rateHz);
    if (p > 0 && greatestCommonDivisor(p, q) === 1 && frequencyHz < slow * rateHz) {
      found.push({
        p,
        q,
        frequencyHz,
        period: 1 / frequencyHz,
        branchSweep: q / frequencyHz,
      });
    }
  }
  return found;
}

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}
