import type { Held } from "./level-statements.ts";
import { studentTable } from "./student-table.ts";

/** A mixture of Student's t distributions of the same degrees of freedom, each with a centre and a scale of its own. */
export interface StudentMixture {
  readonly weight: Float64Array;
  readonly centre: Float64Array;
  readonly scale: Float64Array;
  readonly degrees: number;
}

/** Mean of the centres; the mean of the mixture wherever it has one. */
export function mixtureMean({ weight, centre }: StudentMixture): number {
  let sum = 0;
  let total = 0;
  for (let i = 0; i < weight.length; i++) {
    sum += weight[i]! * centre[i]!;
    total += weight[i]!;
  }
  return sum / total;
}

/**
 * Quantile of a mixture of Student's t.
 *
 * @param mixture - weights (any scale, >= 0), centres, scales (>= 0), degrees of freedom (> 0)
 * @param probability - 0 < probability < 1
 * @returns x with P(X <= x) = probability
 *
 * Source: bracketed false position on the mixture's distribution; Abramowitz & Stegun 26.7.1 for its parts. Exact case:
 * one part gives centre + t·scale (JCGM 100:2008, table G.2).
 */
export function mixtureQuantile(mixture: StudentMixture, probability: number): number {
  const { weight, centre, scale, degrees } = mixture;
  let total = 0;
  let low = Infinity;
  let high = -Infinity;
  let widest = 0;
  for (let i = 0; i < weight.length; i++) {
    total += weight[i]!;
    low = Math.min(low, centre[i]! - 3 * scale[i]!);
    high = Math.max(high, centre[i]! + 3 * scale[i]!);
    widest = Math.max(widest, scale[i]!);
  }
  if (widest === 0 && low === high) return low;
  const within = studentTable(degrees);
  const off = (x: number) => {
    let sum = 0;
    for (let i = 0; i < weight.length; i++) {
      const s = scale[i]!;
      const d = x - centre[i]!;
      sum += weight[i]! * (s > 0 ? within(d / s) : d >= 0 ? 1 : 0);
    }
    return sum / total - probability;
  };
  let width = high - low;
  let below = off(low);
  for (; below > 0; width *= 2) {
    low -= width;
    below = off(low);
  }
  let above = off(high);
  for (; above < 0; width *= 2) {
    high += width;
    above = off(high);
  }
  const close = 1e-9 * (high - low);
  for (let step = 0, side = 0; step < 100 && high - low > close; step++) {
    const x = step % 8 === 7 ? 0.5 * (low + high) : (low * above - high * below) / (above - below);
    const value = off(x);
    if (Math.abs(value) < 1e-8) return x;
    if (value < 0) {
      low = x;
      below = value;
      if (side === -1) above /= 2;
      side = -1;
    } else {
      high = x;
      above = value;
      if (side === 1) below /= 2;
      side = 1;
    }
  }
  return 0.5 * (low + high);
}

/** Mean and 95 % interval of a mixture, each turned into the units of the record by an increasing function. */
export function heldBy(mixture: StudentMixture, inRecord: (x: number) => number): Held {
  return {
    estimate: inRecord(mixtureMean(mixture)),
    low: inRecord(mixtureQuantile(mixture, 0.025)),
    high: inRecord(mixtureQuantile(mixture, 0.975)),
  };
}
