import type { ChartOptions } from "./chart-options.ts";
import { logLogChart } from "./log-log-chart.ts";
import { seriesStyle } from "./palette.ts";
import type { PowerLine } from "./power-line.ts";
import type { SvgNode } from "./svg-node.ts";

/** Errors found with one way of measuring. */
export interface GateErrorSeries {
  /** The way of measuring. */
  readonly name: string;
  /** Gate length T; s, > 0, ascending. */
  readonly gate: Float64Array;
  /** Apparent error: rms of reading minus truth; dimensionless, > 0, NaN for none. */
  readonly error: Float64Array;
  /** Ends of its confidence interval; NaN for none. */
  readonly low?: Float64Array;
  readonly high?: Float64Array;
}

/** What the chart shows. */
export interface ErrorAgainstGateInput {
  readonly series: readonly GateErrorSeries[];
  /** Lines that fall as a power of T, each named by what causes it; its slope is put before the name. */
  readonly laws: readonly PowerLine[];
}

/**
 * Apparent error of a reading against gate length, both logarithmic, beside the laws it follows.
 *
 * @param input - errors, and lines named by their causes
 * @param options - title, size, colours
 * @returns the picture
 * @throws RangeError if arrays differ in length, or no error is above zero
 */
export function errorAgainstGateChart(
  input: ErrorAgainstGateInput,
  options: ChartOptions,
): SvgNode {
  return logLogChart(
    {
      chart: "errorAgainstGateChart",
      heading: "Apparent error against gate length",
      x: { quantity: "Gate length T", unit: "s" },
      y: { quantity: "Apparent error of the rate, rms", unit: "rate" },
      curves: input.series.map(({ name, gate, error, low, high }, i) => ({
        name,
        x: gate,
        y: error,
        ...(low && high ? { low, high } : {}),
        // Measured points stand alone: the lines of this chart are the laws.
        look: { style: seriesStyle(i), hasLine: false, hasMarkers: true },
      })),
      guides: input.laws,
      isSquare: true,
    },
    options,
  );
}
