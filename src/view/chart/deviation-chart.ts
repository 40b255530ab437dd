import type { ChartOptions } from "./chart-options.ts";
import { logLogChart } from "./log-log-chart.ts";
import { seriesStyle } from "./palette.ts";
import type { PowerLine } from "./power-line.ts";
import type { SvgNode } from "./svg-node.ts";

/** One deviation of the Allan family. */
export interface DeviationSeries {
  /** Such as `Allan deviation`. */
  readonly name: string;
  /** Averaging times; s, > 0, ascending. */
  readonly tau: Float64Array;
  /** Deviation at each; in the unit of the chart, NaN for none. */
  readonly deviation: Float64Array;
  /** Ends of the confidence interval; NaN for none. */
  readonly low?: Float64Array;
  readonly high?: Float64Array;
}

/** What the chart shows. */
export interface DeviationChartInput {
  readonly series: readonly DeviationSeries[];
  /** Slopes, each named by the noise that makes it. */
  readonly guides: readonly PowerLine[];
  /** `1` for deviations of fractional frequency (default), `s` for time deviations and MTIE. */
  readonly unit?: "1" | "s";
}

/**
 * Deviations of the Allan family against averaging time, both logarithmic, with a decade equally long on
 * both axes: confidence bars, and guide lines whose slopes are named by the noise that makes them.
 *
 * @param input - deviations and guides
 * @param options - title, size, colours
 * @returns the picture
 * @throws RangeError if arrays differ in length, or no deviation is above zero
 */
export function deviationChart(input: DeviationChartInput, options: ChartOptions): SvgNode {
  const isTime = input.unit === "s";
  return logLogChart(
    {
      chart: "deviationChart",
      heading: isTime
        ? "Time deviation against averaging time"
        : "Deviation against averaging time",
      x: { quantity: "Averaging time τ", unit: "s" },
      y: isTime
        ? { quantity: "Deviation of time error", unit: "s" }
        : { quantity: "Deviation of fractional frequency", unit: "fraction" },
      curves: input.series.map(({ name, tau, deviation, low, high }, i) => ({
        name,
        x: tau,
        y: deviation,
        ...(low && high ? { low, high } : {}),
        look: { style: seriesStyle(i), hasLine: true, hasMarkers: true },
      })),
      guides: input.guides,
      isSquare: true,
    },
    options,
  );
}
