import { presentPlaces } from "../readings/present-places.ts";
import type { PeriodReadings } from "../readings/readings.ts";

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
 * Certain means: every d/P̄ is within a quarter of an integer, and so is six times its expected scatter.
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
      if (Number.isNaN(count) || whole < 0) known = false;
      else {
        const expected = (6 * Math.hypot(scatter, length * rateUncertainty)) / meanPeriod;
        worst = Math.max(worst, Math.abs(count - whole), expected);
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
  const joined = stretches === 1 || (known && worst < certainWithin);
  return {
    edge: edge.subarray(0, size),
    x: x.subarray(0, size),
    stretches,
    joined,
    why: sayWhy(stretches, known, joined, worst),
  };
}

function sayWhy(stretches: number, known: boolean, joined: boolean, worst: number): string {
  if (stretches === 1) return "";
  if (!known) return "the record does not say how long the breaks between its readings are";
  return joined
    ? `the cycles in the ${stretches - 1} breaks are certain${worst < 0.005 ? "" : ` to ${worst.toFixed(2)} cycle`}`
    : `the cycles in the ${stretches - 1} breaks are not certain (out by up to ${worst.toFixed(2)} cycle)`;
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
