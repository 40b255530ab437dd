import type { ChartOptions, SvgNode } from "../../src/view/chart/index.ts";
import { readingsChart } from "../../src/view/chart/index.ts";
import { deviates } from "./deviates.ts";

/** Readings of a drive that beats between two values, with two missed edges. */
export function readings(options: ChartOptions): SvgNode {
  const next = deviates(11);
  const time = Float64Array.from({ length: 80 }, (_, i) => i * 50);
  const reading = time.map((_, i) => 3e-7 * next() + (i === 30 || i === 55 ? 4e-3 : 0) + 2e-11);
  let sum = 0;
  let used = 0;
  const mean = reading.map((value) => {
    if (value < 1e-3) {
      sum += value;
      used++;
    }
    return sum / used;
  });
  const halfWidth = mean.map((_, i) => (i < 1 ? NaN : 6e-7 / Math.sqrt(i + 1)));
  return readingsChart({ time, reading, mean, halfWidth, truth: 2e-11 }, options);
}

/** Back-to-back readings, whose mean soon is far surer than any of them. */
export function backToBack(options: ChartOptions): SvgNode {
  const next = deviates(17);
  const edges = Float64Array.from({ length: 61 }, () => 3e-4 * next());
  const time = Float64Array.from({ length: 60 }, (_, i) => i * 50);
  const reading = time.map((_, i) => (edges[i + 1]! - edges[i]!) / 50);
  const mean = time.map((_, i) => (edges[i + 1]! - edges[0]!) / (50 * (i + 1)));
  const halfWidth = time.map((_, i) => 8.3e-4 / (50 * (i + 1)));
  return readingsChart({ time, reading, mean, halfWidth, truth: 2e-11 }, options);
}
