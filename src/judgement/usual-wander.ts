import { median, robustDeviation } from "../numeric/index.ts";
import type { Breaks } from "./lost-in-breaks.ts";

/** A break so many times as long as the usual one of dead time is a gap. */
const gapFrom = 1.5;
/** Spans from which on they tell how far a record wanders. */
const fewestSpans = 5;

/**
 * How far a record usually wanders from its mean rate within so many cycles: robust deviation of what lies between the
 * last edge of a reading and the first edge so many cycles later, over all spans without a gap in them; where there
 * are too few as long, of shorter ones in proportion, as a rate that is off for long carries it.
 *
 * @param breaks - of the record
 * @returns function of the number of cycles; gives cycles
 *
 * Source: own derivation. Exact case: a record that keeps its mean rate wanders by 0.
 */
export function usualWander(breaks: Breaks): (cycles: number) => number {
  const { edge, phase, segment } = edgesOf(breaks);
  const known = new Map<number, number>();
  const over = (cycles: number): number => {
    const span: number[] = [];
    let to = 0;
    for (let from = 1; from < edge.length; from += 2) {
      to = Math.max(to, from + 1);
      while (to < edge.length && edge[to]! < edge[from]! + cycles) to++;
      if (to < edge.length && segment[to] === segment[from]) span.push(phase[to]! - phase[from]!);
    }
    if (span.length >= fewestSpans) return robustDeviation(Float64Array.from(span), 0);
    return cycles > 1 ? 2 * wander(cycles / 2) : Number.POSITIVE_INFINITY;
  };
  const wander = (cycles: number): number => {
    // Two digits, so that breaks of many lengths go over the record a few times and not once each.
    let unit = 1;
    while (cycles >= 100 * unit) unit *= 10;
    const rounded = unit * Math.floor(cycles / unit);
    const value = known.get(rounded) ?? over(rounded);
    known.set(rounded, value);
    return value;
  };
  return wander;
}

/** First and last edge of each reading: number, distance from the mean rate in cycles, stretch between gaps. */
function edgesOf({ after, whole, off, cycles, residual, backToBack }: Breaks) {
  const usual = backToBack ? Number.NEGATIVE_INFINITY : gapFrom * median(Float64Array.from(whole));
  const edge = new Float64Array(2 * cycles.length);
  const phase = new Float64Array(2 * cycles.length);
  const segment = new Int32Array(2 * cycles.length);
  let n = 0;
  let p = 0;
  let gaps = 0;
  let k = 0;
  for (let j = 0; j < cycles.length; j++) {
    if (after[k] === j) {
      n += whole[k]!;
      p += off[k]!;
      if (whole[k]! > usual) gaps++;
      k++;
    }
    for (let end = 0; end <= 1; end++) {
      if (end === 1) {
        n += cycles[j]!;
        p += residual[j]!;
      }
      edge[2 * j + end] = n;
      phase[2 * j + end] = p;
      segment[2 * j + end] = gaps;
    }
  }
  return { edge, phase, segment };
}
