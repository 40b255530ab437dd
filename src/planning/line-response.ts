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
  if (weighting.kind === "half_means") {
    const m = n / 2;
    const mean = Math.abs(half) < 1e-9 / m ? 1 : Math.sin(m * half) / (m * Math.sin(half));
    return ((2 * Math.sin(m * half) * mean) / (m * spacing)) ** 2;
  }
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
 * An upper bound of |W(f)|² that does not cycle as the run gets longer: no later run does worse.
 *
 * @param f - frequency; Hz
 * @returns 1/s², >= lineResponse
 *
 * Source: the amplitude of the cycling terms of `lineResponse`; own derivation.
 */
export function lineResponseBound(weighting: Weighting, f: number): number {
  const turns = f * weighting.spacing;
  const sine = Math.sin(Math.PI * (turns - Math.round(turns)));
  if (weighting.kind === "gates") {
    const { readings: k, gate } = weighting;
    const comb = Math.min(1, 1 / (k * Math.abs(sine)));
    return ((2 * Math.sin(Math.PI * f * gate) * comb) / gate) ** 2;
  }
  const { stamps: n, spacing } = weighting;
  const slope = (2 * Math.PI * (turns - Math.round(turns))) / spacing;
  if (n === 2) return Math.min(slope ** 2, 4 / (spacing * spacing));
  if (weighting.kind === "half_means") {
    return Math.min(slope ** 2, (8 / (n * n * spacing * sine)) ** 2);
  }
  const norm = 12 / (n * (n * n - 1) * spacing);
  const amplitude = Math.hypot(n / (2 * sine), 1 / (2 * sine * sine));
  return Math.min(slope ** 2, (norm * amplitude) ** 2);
}
