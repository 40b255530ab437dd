import { cholesky } from "../numeric/index.ts";
import type { RelaxationBank } from "./relaxation-bank.ts";
import { RelaxationBridge, type Seen } from "./relaxation-bridge.ts";

/** Readings of a stride that are open once the end values are known; a multiple of twice `abreast`. */
export const openReadings = 16;
const half = openReadings / 2;
/** Rows of the law that are read side by side. */
export const abreast = 4;
/** Part of a row's largest weight below which an end value does not show in a reading. */
const negligible = 1e-17;

/** The law of a bank's readings over a stride of equal steps. */
export interface RelaxationStride {
  /** Steps M of the stride. */
  readonly steps: number;
  /** Coefficients of the bank's step from end to end, which draws the end values. */
  readonly factors: Float64Array;
  /**
   * Makes the even and odd parts of the open readings: ½·`openReadings` rows of n + ½·`openReadings` entries each.
   * `abreast` rows make a group; entry k of a group is that of its even rows, then that of its odd rows.
   */
  readonly law: Float64Array;
  /** First entry of each group: processes so fast that nothing of their end values is left there come first. */
  readonly starts: Int32Array;
  /** The processes between their end values. */
  readonly bridge: RelaxationBridge;
  /** Lower Cholesky factor of the covariance of the open readings given the end values, row by row. */
  readonly root: Float64Array;
}

/**
 * The joint Gaussian of what is seen of a bank at each of M equal steps, given all values at both ends.
 *
 *   o_i = e_i − d_i,  o_(m+1−i) = e_i + d_i,  i = 1…m/2
 *   e = E·(y(0) + y(T), g),  d = O·(y(T) − y(0), g'),  g, g' standard Gaussian
 *
 * A stationary Gaussian process is the same backwards in time, a random walk between fixed ends too: so
 * even and odd parts of the m open readings are independent, and each depends on sum or difference of
 * the end values alone. Of integrals all M readings are open; of sums the last is known with the end values, so
 * that M = m + 1.
 *
 * @param bank - the processes
 * @param seen - what a reading is
 * @param dt - step; s, > 0
 * @returns the law; unit of the process, times s for integrals
 *
 * Source: conditional Gaussian (Gillespie, Phys. Rev. E 54, 2084 (1996), see `RelaxationBridge`). Exact case:
 * with a single process far faster than dt the readings are independent.
 */
export function relaxationStride(bank: RelaxationBank, seen: Seen, dt: number): RelaxationStride {
  const steps = seen === "sum" ? openReadings + 1 : openReadings;
  const bridge = new RelaxationBridge(bank, seen, dt, steps);
  const covariance = new Float64Array(openReadings * openReadings);
  for (let i = 0; i < openReadings; i++) {
    for (let j = 0; j <= i; j++) {
      covariance[i * openReadings + j] = bridge.readingCovariance(i + 1, j + 1);
      covariance[j * openReadings + i] = covariance[i * openReadings + j]!;
    }
  }
  const even = halfLaw(bridge, covariance, 1);
  const odd = halfLaw(bridge, covariance, -1);
  const width = bridge.terms + half;
  return {
    steps,
    factors: bank.step(steps * dt).factors,
    law: inGroups(even, odd, width),
    starts: firstEntries(even, odd, width),
    bridge,
    root: cholesky(covariance, openReadings),
  };
}

/** E (parity 1) or O (parity −1): weights of the end values, then Cholesky's factor. */
function halfLaw(bridge: RelaxationBridge, covariance: Float64Array, parity: 1 | -1): Float64Array {
  const { terms } = bridge;
  const width = terms + half;
  const law = new Float64Array(half * width);
  const part = new Float64Array(half * half);
  for (let i = 0; i < half; i++) {
    for (let k = 0; k < terms; k++) {
      const [start, end] = [bridge.startWeight(k, i + 1), bridge.endWeight(k, i + 1)];
      law[i * width + k] = 0.5 * (parity > 0 ? start + end : start - end);
    }
    for (let j = 0; j < half; j++) {
      const near = covariance[i * openReadings + j]!;
      const far = covariance[i * openReadings + openReadings - 1 - j]!;
      part[i * half + j] = 0.5 * (near + parity * far);
    }
  }
  const root = cholesky(part, half);
  for (let i = 0; i < half; i++) {
    law.set(root.subarray(i * half, (i + 1) * half), i * width + terms);
  }
  return law;
}

/** Even and odd rows as they are read: group by group, entry by entry, row by row. */
function inGroups(even: Float64Array, odd: Float64Array, width: number): Float64Array {
  const law = new Float64Array(2 * even.length);
  for (let i = 0; i < half; i++) {
    const row = i % abreast;
    const first = 2 * width * (i - row);
    for (let k = 0; k < width; k++) {
      law[first + 2 * abreast * k + row] = even[i * width + k]!;
      law[first + 2 * abreast * k + abreast + row] = odd[i * width + k]!;
    }
  }
  return law;
}

/** Where each group begins to matter: what is left out is below the rounding of the sum. */
function firstEntries(even: Float64Array, odd: Float64Array, width: number): Int32Array {
  const firstOf = (row: Float64Array) => {
    const largest = row.reduce((most, entry) => Math.max(most, Math.abs(entry)), 0);
    return Math.max(
      0,
      row.findIndex((entry) => Math.abs(entry) > negligible * largest),
    );
  };
  const starts = new Int32Array(half / abreast).fill(width);
  for (let i = 0; i < half; i++) {
    const group = Math.floor(i / abreast);
    for (const rows of [even, odd]) {
      const row = rows.subarray(i * width, (i + 1) * width);
      starts[group] = Math.min(starts[group]!, firstOf(row));
    }
  }
  return starts;
}
