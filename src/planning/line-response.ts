import type { Weighting } from "./weighting.ts";

/**
 * |W(f)|² of the weights: a line of variance P at the frequency f, at a random phase, adds P·|W(f)|².
 *
 * @param f - frequency, of any size: it is folded at the rate of the stamps; Hz
 * @returns 1/s²
 *
 * Source: the Fourier transform of the weights. Exact.
 */
export function lineResponse(weighting: Weighting, f: number): number {
  const turns = f * weighting.spacing;
  const half = Math.PI * (turns - Math.round(turns));
  if (weighting.kind === "gates") {
    const { readings: k, gate } = weighting;
    const single = Math.sin(Math.PI * f * gate) / gate;
    const comb = Math.abs(half) < 1e-9 / k ? 1 : Math.sin(k * half) / (k * Math.sin(half));
    return 4 * single * single * comb * comb;
  }
  const { stamps: n, spacing } = weighting;
  if (n === 2) return (4 * Math.sin(half) ** 2) / (spacing * spacing);
  const norm = 12 / (n * (n * n - 1) * spacing);
  const sine = Math.sin(half);
  const sum =
    Math.abs(n * half) < 1e-3
      ? (half * n * (n * n - 1)) / 6
      : (Math.sin(n * half) * Math.cos(half)) / (2 * sine * sine) -
        (n * Math.cos(n * half)) / (2 * sine);
  return (norm * sum) ** 2;
}

/**
 * An upper bound of |W(f)|² for this run and for all longer ones of its kind.
 *
 * As long as the line does not complete a cycle within the run the response falls with the length, and is the
 * bound itself where it is above the lobes to come; beyond, the amplitude of what cycles with the length is.
 *
 * @param f - frequency; Hz
 * @returns 1/s², >= lineResponse of these weights and of those of longer runs
 *
 * Source: the amplitude of the cycling terms of `lineResponse`; own derivation.
 */
export function lineResponseBound(weighting: Weighting, f: number): number {
  const { step, count, lobe, amplitude } = cycling(weighting, f);
  const turns = f * step;
  const phase = Math.PI * Math.abs(turns - Math.round(turns));
  const here = lineResponse(weighting, f);
  if (phase === 0) return here;
  const later = amplitude(count * phase < lobe ? lobe / phase : count, Math.sin(phase));
  // No stamps see more than the steepest slope of the line; a gate may hold many of its cycles.
  const most = weighting.kind === "gates" ? later : Math.min(later, (2 * phase) / step);
  return Math.max(here, most * most);
}

/** How the response cycles as a run gets longer by equal steps. */
interface Cycling {
  /** What a longer run is longer by; s. */
  readonly step: number;
  /** Length of the run in steps. */
  readonly count: number;
  /** Phase over the run just before the response's first null, down to which it falls; rad. */
  readonly lobe: number;
  /** Amplitude of |W| for so many steps, by the sine of the phase of one; 1/s. */
  readonly amplitude: (count: number, sine: number) => number;
}

function cycling(weighting: Weighting, f: number): Cycling {
  if (weighting.kind === "gates") {
    const { readings, gate, spacing } = weighting;
    const single = (2 * Math.abs(Math.sin(Math.PI * f * gate))) / gate;
    return {
      step: spacing,
      count: readings,
      lobe: 3.1,
      amplitude: (k, sine) => single * Math.min(1, 1 / (k * sine)),
    };
  }
  const { stamps, spacing } = weighting;
  if (stamps === 2) {
    const { step = spacing } = weighting;
    return { step, count: spacing / step, lobe: 3.1, amplitude: (k) => 2 / (k * step) };
  }
  return {
    step: spacing,
    count: stamps,
    // A null of sin u − u·cos u for many stamps; for few of them too, by trial.
    lobe: 4.4,
    amplitude: (n, sine) =>
      (12 / (n * (n * n - 1) * spacing)) * Math.hypot(n / (2 * sine), 1 / (2 * sine * sine)),
  };
}
