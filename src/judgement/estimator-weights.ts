import type { ScaledEvents } from "../noise-model/index.ts";
import type { EstimatorMethod } from "./rate-estimate.ts";

/**
 * Weights with which a plain estimator takes the phases of a record, counted from the start of each stretch.
 *
 * Mean of readings: the ends of every reading, shared ones apart, over the time of all; end to end: the last edge over the run; line fit:
 * least squares with a free offset for every stretch.
 *
 * @param scaled - the record
 * @param method - which estimator
 * @returns a weight for each event; 1/time units
 */
export function estimatorWeights(
  { events, reading }: ScaledEvents,
  method: EstimatorMethod,
): Float64Array {
  const { starts, count, regressors, duration } = events;
  const time = regressors[0]!.values;
  const size = time.length;
  const weights = new Float64Array(size);
  if (method === "end_to_end") {
    weights[size - 1] = 1 / duration;
    return weights;
  }
  let spread = 0;
  let length = 0;
  for (let from = 0; from < size; ) {
    let to = from + 1;
    while (to < size && starts[to] === 0) to++;
    length += time[to - 1]!;
    let sum = 0;
    let all = 0;
    for (let k = from; k < to; k++) {
      all += count[k]!;
      sum += count[k]! * time[k]!;
    }
    for (let k = from; k < to; k++) {
      const off = time[k]! - sum / all;
      spread += count[k]! * off * off;
      weights[k] = method === "line_fit" ? count[k]! * off : 0;
    }
    if (method === "mean_of_readings") {
      weights[to - 1] = 1;
      for (let k = from + 1; k < to; k++) {
        // A known gap: the last edge of one reading, the first of the next.
        if (reading[k] !== reading[k - 1]) continue;
        weights[k - 1] = weights[k - 1]! + 1;
        weights[k] = weights[k]! - 1;
        length -= time[k]! - time[k - 1]!;
      }
    }
    from = to;
  }
  const scale = method === "line_fit" ? spread : length;
  return weights.map((w) => w / scale);
}
