import { polesAt } from "./edge-filter.ts";
import { poleVariance } from "./ladder.ts";
import { combination, type Estimate } from "./least-squares-pass.ts";
import type { GridNode } from "./level-grid.ts";
import { relaxingStep } from "./pole-step.ts";
import { transition } from "./transition.ts";

/**
 * What the phase will gain over a stretch after the last edge, under one set of levels.
 *
 * Processes slower than the ladder stood still over the run, so that they are part of the rate that was found; over a
 * long way ahead they move on, which adds (h − gain)² of their variance and their own noise.
 *
 * @param node - levels and fit
 * @param times - flicker ladder; time units
 * @param ahead - length of the stretch; time units, > 0
 * @param duration - length of the run; time units
 * @returns gain and its variance over σ²; phase, phase²
 *
 * Source: own derivation. Exact case: no floor and no walk: h·s with variance h²·u² + wfm·h.
 */
export function forecast(
  { levels, fit }: GridNode,
  times: Float64Array,
  ahead: number,
  duration: number,
): Estimate {
  const { poles, phase } = transition(levels, times, ahead, 1);
  const { states, covariance, order: n } = fit.filter;
  const p = fit.coefficients.length;
  const carried = (column: number) => {
    let sum = 0;
    poles.forEach((pole, a) => {
      sum += pole.gain * states[column * n + polesAt + a]!;
    });
    return sum;
  };
  const weights = Array.from({ length: p }, (_, i) => (i === 0 ? ahead : 0) - carried(i + 1));
  const part = combination(weights, fit.coefficients, fit.inverse);
  let variance = part.variance + phase;
  for (let a = 0; a < poles.length; a++) {
    for (let b = 0; b < poles.length; b++) {
      const at = a <= b ? (polesAt + a) * n + polesAt + b : (polesAt + b) * n + polesAt + a;
      variance += poles[a]!.gain * poles[b]!.gain * covariance[at]!;
    }
  }
  for (let time = 10 * times.at(-1)!; time < 1e5 * duration; time *= 10) {
    const slow = relaxingStep(ahead, time, poleVariance * levels.ffm);
    const lag = ahead - slow.gain;
    variance += lag * lag * poleVariance * levels.ffm + slow.phase;
  }
  return { value: part.value + carried(0), variance };
}
