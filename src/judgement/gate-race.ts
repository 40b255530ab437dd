import { normalCdf } from "../numeric/index.ts";
import { normalDensity } from "./normal-density.ts";

/** A gate of whole ticks, and what it does to the slope. */
export interface GateRace {
  /** What is to be added to the slope; dimensionless. */
  readonly correction: number;
  /** Half-width of what stays unknown of it. */
  readonly bound: number;
  /** The nearest gate that does not race: half a tick off; s. */
  readonly better: number;
}

/** What is known of the readings of such a gate. */
export interface RacingReadings {
  /** s. */
  readonly gate: number;
  /** Usual period; s. */
  readonly period: number;
  /** Mean length of a reading; s. */
  readonly length: number;
  /** Standard deviation of it; s. */
  readonly scatter: number;
  /** Whether the last edge of a reading is the first of the next. */
  readonly backToBack: boolean;
  /** Share of white PM in that scatter, 0 to 1; NaN where it is not known. */
  readonly edgeShare: number;
}

/** Quadrature over the noise of an edge: from −5 to 5 deviations. */
const step = 0.1;
const half = 50;

/**
 * Race of a gate of whole ticks with its own last edge. An edge that is late ends the reading; one that is early does
 * not, and the reading takes another tick, which the count inferred from the period alone may overlook.
 *
 * Under white PM the mean error of a reading follows by quadrature over the noise of its edges; under white FM it is
 * nearly 0. Back to back the first edge was itself selected by the reading before: its distribution is the stationary
 * one. What cannot be told of the two noises, and three tenths of the rest, is the bound.
 *
 * @param readings - what is known of the readings
 * @returns the race; null where the gate ends well between two edges
 *
 * Source: own derivation; tested against a simulated counter. Exact case: back to back with no margin the first edge
 * has the density φ(v)·e^Φ(v)/(e − 1).
 */
export function gateRace(readings: RacingReadings): GateRace | null {
  const { gate, period, length, scatter, backToBack, edgeShare } = readings;
  const ticks = Math.round(gate / period);
  const margin = gate - ticks * period;
  if (ticks < 1 || !(scatter > 0) || Math.abs(margin) > 5 * scatter) return null;
  // Edges that were selected scatter less than all.
  const edge = scatter / lengthDeviation((Math.SQRT2 * margin) / scatter, backToBack);
  const bias = (edge * meanGain(margin / edge, ticks, backToBack)) / length;
  const share = Number.isNaN(edgeShare) ? 0.5 : edgeShare;
  return {
    correction: -share * bias,
    bound: Math.abs(bias) * (Math.min(share, 1 - share) + 0.3),
    better: (ticks - 0.5) * period,
  };
}

/** Mean of what a reading's count and length make of the time error; deviations of an edge. */
function meanGain(margin: number, ticks: number, shared: boolean): number {
  const first = firstEdge(margin, shared);
  let mean = 0;
  for (let j = -half; j <= half; j++) {
    const u = j * step;
    const late = u + margin;
    const early = normalCdf(late);
    // The edge in time ends the reading: its error less that of the first.
    const inTime = normalDensity(late) - u * (1 - early);
    // Else the next one does; where its period reaches the gate with a tick less, that is what is counted.
    const reaches = u + (margin * (ticks + 1)) / ticks;
    const overlooked = (normalDensity(reaches) - u * (1 - normalCdf(reaches))) / (ticks + 1);
    mean += first[j + half]! * (-inTime + early * (u + overlooked));
  }
  return mean;
}

/** Probability of the first edge's error on the grid. */
function firstEdge(margin: number, shared: boolean): Float64Array {
  const size = 2 * half + 1;
  let g = Float64Array.from({ length: size }, (_, i) => step * normalDensity((i - half) * step));
  for (let round = 0; shared && round < 30; round++) {
    let again = 0;
    for (let i = 0; i < size; i++) again += g[i]! * normalCdf((i - half) * step + margin);
    const old = g;
    g = Float64Array.from({ length: size }, (_, i) => {
      // Taken as the edge in time after any first edge that it is late for, or as the next after one that was early.
      const reach = i - margin / step;
      let sum = again;
      for (let k = 0; k < size && k <= reach + 0.5; k++) {
        sum += old[k]! * Math.min(1, reach + 0.5 - k);
      }
      return step * normalDensity((i - half) * step) * sum;
    });
    const total = g.reduce((a, b) => a + b, 0);
    g = g.map((x) => x / total);
  }
  return g;
}

/** Standard deviation of a reading's length, in those of an edge. */
function lengthDeviation(margin: number, shared: boolean): number {
  let square = 0;
  firstEdge(margin, shared).forEach((weight, i) => {
    const u = (i - half) * step;
    square += weight * (1 + u * u + normalDensity(u + margin) * (margin - u));
  });
  return Math.sqrt(square);
}
