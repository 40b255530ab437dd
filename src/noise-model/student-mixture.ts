import { exp, log } from "../numeric/index.ts";
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
  const { weight, centre, scale, degrees } =
    mixture.weight.length > worthMerging ? merged(mixture) : mixture;
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

/** Parts above which like ones are put together first. */
const worthMerging = 200;
/** Width of a cell of like parts: ln of the scale, and centre in scales. What that moves a quantile by is below 1e-3 scales. */
const cell = 0.05;

/** Parts of like centre and scale put together. */
function merged({ weight, centre, scale, degrees }: StudentMixture): StudentMixture {
  const first = centre[0]!;
  let span = 0;
  for (let i = 0; i < weight.length; i++) {
    span = Math.max(span, Math.abs(centre[i]! - first), scale[i]!);
  }
  const finest = 1e-6 * span;
  const cells = new Map<number, number>();
  const sums = { weight: [] as number[], centre: [] as number[], scale: [] as number[] };
  for (let i = 0; i < weight.length; i++) {
    const row = Math.floor(log(Math.max(scale[i]!, finest, 1e-300)) / cell);
    const key = 1e9 * row + Math.round((centre[i]! - first) / (cell * exp(cell * row)));
    let at = cells.get(key);
    if (at === undefined) {
      at = cells.size;
      cells.set(key, at);
      sums.weight[at] = sums.centre[at] = sums.scale[at] = 0;
    }
    const w = weight[i]!;
    sums.weight[at] = sums.weight[at]! + w;
    sums.centre[at] = sums.centre[at]! + w * (centre[i]! - first);
    sums.scale[at] = sums.scale[at]! + w * scale[i]!;
  }
  const mean = (of: number[], from: number) =>
    Float64Array.from(of, (sum, i) => from + (sums.weight[i] === 0 ? 0 : sum / sums.weight[i]!));
  return {
    weight: Float64Array.from(sums.weight),
    centre: mean(sums.centre, first),
    scale: mean(sums.scale, 0),
    degrees,
  };
}

/** Mean and interval (95 %) of a mixture, each turned into the units of the record by an increasing function. */
export function heldBy(
  mixture: StudentMixture,
  inRecord: (x: number) => number,
  share = 0.95,
): Held {
  return {
    estimate: inRecord(mixtureMean(mixture)),
    low: inRecord(mixtureQuantile(mixture, 0.5 - 0.5 * share)),
    high: inRecord(mixtureQuantile(mixture, 0.5 + 0.5 * share)),
  };
}
