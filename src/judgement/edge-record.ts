import type { PeriodReadings } from "../readings/index.ts";
import { presentPlaces, valuesAt } from "../readings/index.ts";
import { lostInBreaks } from "./lost-in-breaks.ts";

/** The edges that a record of readings stands on, with their time errors. */
export interface EdgeRecord {
  /** Number of each edge, ascending from 0; dimensionless. */
  readonly edge: Float64Array;
  /** Time error of each edge, that of the first being 0; s. */
  readonly x: Float64Array;
  /** Unbroken stretches: 1 where each reading begins at the last edge of the one before. */
  readonly stretches: number;
  /** Whether the count is certain over all breaks, so that the time errors belong to one scale. */
  readonly joined: boolean;
  /** What was concluded about the breaks; empty where there are none. */
  readonly why: string;
}

/** Scatter above which the count across a break is not certain, in cycles. */
const certainWithin = 0.25;

/**
 * Edges of a record, joined over gaps and dead time where the number of cycles in them is certain.
 *
 *   back to back: x_k = Σ_{i<k} c_i·(T − P_i);  over a break of length d: x += n·T − d, n = d/P̄ rounded
 *
 * Certain means: six times the expected scatter of d/P̄ is below a quarter of a cycle, and no d/P̄ is further from
 * an integer than noise explains (see lostInBreaks). Else a part of a cycle was lost in the break, and would pass for
 * rate.
 *
 * @param readings - period readings; at least one not missing
 * @returns the edges; where a count is not certain, each stretch keeps a scale of its own (joined false)
 * @throws RangeError if every reading is missing
 *
 * Source: own derivation. Exact case: readings of one and the same period give x on a straight line.
 */
export function edgeRecord(readings: PeriodReadings): EdgeRecord {
  const { period, cycles, start, nominalPeriod, backToBack } = readings;
  const valid = presentPlaces(period);
  if (valid.length === 0) throw new RangeError("edgeRecord: readings must not all be missing");
  const { meanPeriod, scatter, rateUncertainty } = spread(readings, valid);
  const edge = new Float64Array(2 * valid.length);
  const x = new Float64Array(2 * valid.length);
  let size = 1;
  let n = 0;
  let error = 0;
  let stretches = 1;
  const breaks = {
    after: [] as number[],
    off: [] as number[],
    expected: [] as number[],
    whole: [] as number[],
  };
  let worst = 0;
  let known = true;
  for (let j = 0; j < valid.length; j++) {
    const i = valid[j]!;
    const previous = valid[j - 1];
    if (previous !== undefined && !(backToBack && previous === i - 1)) {
      stretches++;
      const length =
        start === null
          ? Number.NaN
          : start[i]! - start[previous]! - cycles[previous]! * period[previous]!;
      const count = length / meanPeriod;
      const whole = Math.round(count);
      if (!Number.isFinite(count) || whole < 0) known = false;
      else {
        const expected = Math.hypot(scatter, length * rateUncertainty) / meanPeriod;
        worst = Math.max(worst, Math.abs(count - whole), 6 * expected);
        breaks.after.push(j);
        breaks.off.push(count - whole);
        breaks.expected.push(Math.max(expected, rounding(start![i]!, meanPeriod)));
        breaks.whole.push(whole);
        n += whole;
        error += whole * nominalPeriod - length;
      }
      edge[size] = n;
      x[size++] = error;
    }
    n += cycles[i]!;
    error += cycles[i]! * (nominalPeriod - period[i]!);
    edge[size] = n;
    x[size++] = error;
  }
  const residual = Float64Array.from(
    valid,
    (i) => (cycles[i]! * (period[i]! - meanPeriod)) / meanPeriod,
  );
  const counts = valuesAt(cycles, valid);
  const lost = lostInBreaks({ ...breaks, cycles: counts, residual, backToBack });
  const joined = stretches === 1 || (known && lost === 0 && worst < certainWithin);
  return {
    edge: edge.subarray(0, size),
    x: x.subarray(0, size),
    stretches,
    joined,
    why: sayWhy(stretches, known, joined, worst, lost),
  };
}

/** What the digits of doubles leave open of a break, as if it were noise; cycles. */
function rounding(time: number, period: number): number {
  return 4 * Number.EPSILON * (1 + Math.abs(time / period));
}

function sayWhy(
  stretches: number,
  known: boolean,
  joined: boolean,
  worst: number,
  lost: number,
): string {
  if (stretches === 1) return "";
  if (!known) return "the record does not tell how many cycles passed between its readings";
  const breaks = stretches === 2 ? "break is" : `${stretches - 1} breaks is`;
  const size = `${worst.toFixed(2)} cycle`;
  if (!joined && worst < certainWithin) {
    const where = stretches === 2 ? "in the break" : `in one of the ${stretches - 1} breaks`;
    return `${Number(lost.toPrecision(2))} cycle was lost or gained ${where}, more than noise explains, which would pass for rate`;
  }
  if (!joined) {
    const out = worst < 0.5 ? `up to ${size}` : "half a cycle or more";
    return `the number of cycles in the ${breaks} not certain (out by ${out})`;
  }
  return `the number of cycles in the ${breaks} certain${worst < 0.005 ? "" : ` to ${size}`}`;
}

/** Mean period, scatter of a reading's length and uncertainty of the mean rate, if readings were independent. */
function spread(readings: PeriodReadings, valid: Int32Array) {
  const { period, cycles } = readings;
  let time = 0;
  let count = 0;
  for (const i of valid) {
    time += cycles[i]! * period[i]!;
    count += cycles[i]!;
  }
  const meanPeriod = time / count;
  let square = 0;
  for (const i of valid) square += (cycles[i]! * (period[i]! - meanPeriod)) ** 2;
  const scatter =
    valid.length > 1 ? Math.sqrt(square / (valid.length - 1)) : Number.POSITIVE_INFINITY;
  return { meanPeriod, scatter, rateUncertainty: (scatter * Math.sqrt(valid.length)) / time };
}
