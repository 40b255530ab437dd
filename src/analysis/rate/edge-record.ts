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
 * Cycles by which a break may be out though noise does not explain it: of dead time, whose many breaks see the tail
 * of the jitter, and of a gap, over which a clock that restarted or fell back keeps a part of a cycle.
 */
const unexplained = { deadTime: 0.05, gap: 0.005 };

/**
 * Edges of a record, joined over gaps and dead time where the number of cycles in them is certain.
 *
 *   back to back: x_k = Σ_{i<k} c_i·(T − P_i);  over a break of length d: x += n·T − d, n = d/P̄ rounded
 *
 * Certain means: six times the expected scatter of d/P̄ is below a quarter of a cycle, and no d/P̄ is further from
 * an integer than that scatter explains. Else a part of a cycle was lost in the break, and would pass for rate.
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
  const left = backToBack ? unexplained.gap : unexplained.deadTime;
  let worst = 0;
  let known = true;
  let explained = true;
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
        const off = Math.abs(count - whole);
        worst = Math.max(worst, off, expected);
        if (off > Math.max(expected, left)) explained = false;
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
  const joined = stretches === 1 || (known && explained && worst < certainWithin);
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
  if (!known) return "the record does not tell how many cycles passed between its readings";
  const breaks = stretches === 2 ? "break is" : `${stretches - 1} breaks is`;
  const size = `${worst.toFixed(2)} cycle`;
  if (!joined) return `the number of cycles in the ${breaks} not certain (out by up to ${size})`;
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
