import type { StabilityRow } from "../../analysis/index.ts";
import type { ChartOptions, SvgNode } from "../chart/index.ts";
import { deviationChart } from "../chart/index.ts";

/**
 * The Allan family (dimensionless) against averaging time, with 95 % bars and the slopes of the noises.
 *
 * @param rows - at least two
 */
export function stabilityPicture(rows: readonly StabilityRow[], options: ChartOptions): SvgNode {
  const column = (value: (row: StabilityRow) => number | null) =>
    Float64Array.from(rows, (row) => {
      const v = value(row);
      return v === null || !(v > 0) ? Number.NaN : v;
    });
  const tau = Float64Array.from(rows, (row) => row.tauS);
  const series = [
    {
      name: "overlapping Allan deviation",
      tau,
      deviation: column((row) => row.allanDeviation),
      low: column((row) => row.allanLow),
      high: column((row) => row.allanHigh),
    },
    {
      name: "modified Allan deviation",
      tau,
      deviation: column((row) => row.modifiedAllanDeviation),
    },
    {
      name: "overlapping Hadamard deviation",
      tau,
      deviation: column((row) => row.hadamardDeviation),
    },
  ].filter(({ deviation }) => deviation.some((v) => !Number.isNaN(v)));
  const last = rows[rows.length - 1]!.tauS;
  const middle = Math.sqrt(tau[0]! * last);
  const level = series[0]!.deviation[Math.floor(rows.length / 2)]!;
  const guides = [
    { name: "white PM", slope: -1 },
    { name: "white FM", slope: -1 / 2 },
    { name: "flicker FM", slope: 0 },
    { name: "random-walk FM", slope: 1 / 2 },
  ].map(({ name, slope }) => ({ name, slope, at: middle, level, from: tau[0]!, to: last }));
  return deviationChart({ series, guides: Number.isNaN(level) ? [] : guides }, options);
}
