import type { ChartOptions } from "./chart-options.ts";
import { logLogChart } from "./log-log-chart.ts";
import { seriesStyle } from "./palette.ts";
import type { SvgNode } from "./svg-node.ts";

/** What one stage adds. */
export interface BudgetCurve {
  /** Stage and cause. */
  readonly name: string;
  /** What it adds to one reading, as a fraction of the period, rms; one value a gate, NaN or 0 for nothing. */
  readonly fraction: Float64Array;
}

/** What the chart shows. */
export interface BudgetChartInput {
  /** Gate lengths; s, > 0, ascending. */
  readonly gate: Float64Array;
  readonly stages: readonly BudgetCurve[];
  /** Root of the sum of squares of what is random; one value a gate. */
  readonly total: Float64Array;
  /** The same found by simulation, where there is one: points with the ends of their 95 % intervals. */
  readonly simulated?: {
    readonly gate: Float64Array;
    readonly fraction: Float64Array;
    readonly low: Float64Array;
    readonly high: Float64Array;
  };
}

/**
 * Uncertainty of one reading, stage by stage, against gate length, both logarithmic.
 *
 * @param input - gates and what each stage adds
 * @param options - title, size, colours
 * @returns the picture: the sum, and of the stages the largest, the others as a sum of theirs
 * @throws RangeError if arrays differ in length, or nothing is above zero
 */
export function budgetChart(input: BudgetChartInput, options: ChartOptions): SvgNode {
  const { simulated } = input;
  return logLogChart(
    {
      chart: "budgetChart",
      heading: "What each stage adds to a reading",
      x: { quantity: "Gate length", unit: "s" },
      y: { quantity: "Standard uncertainty of one reading", unit: "rate" },
      curves: [
        // The total lies under the stages: where one stage is nearly all of it, both are seen.
        {
          name: "all random parts together",
          x: input.gate,
          y: input.total,
          look: {
            style: { color: "ink", dash: "", marker: "circle" },
            hasLine: true,
            hasMarkers: false,
            width: 5,
          },
        },
        ...largestOf(input.stages).map(({ name, fraction }, i) => ({
          name,
          x: input.gate,
          y: fraction,
          look: { style: seriesStyle(stageStyle(i)), hasLine: true, hasMarkers: true },
        })),
        ...(simulated
          ? [
              {
                name: "simulated",
                x: simulated.gate,
                y: simulated.fraction,
                low: simulated.low,
                high: simulated.high,
                look: {
                  style: { color: "ink", dash: "", marker: "circle" } as const,
                  hasLine: false,
                  hasMarkers: true,
                  isOpen: true,
                },
              },
            ]
          : []),
      ],
      guides: [],
      isSquare: false,
    },
    options,
  );
}

/** Curves of stages at most: with the sum six in all. */
const mostStages = 5;

/** The stages that are largest at their highest, the others in one. */
function largestOf(stages: readonly BudgetCurve[]): readonly BudgetCurve[] {
  if (stages.length <= mostStages) return stages;
  const peak = ({ fraction }: BudgetCurve) =>
    fraction.reduce((most, value) => Math.max(value, most), 0);
  const sorted = stages.toSorted((a, b) => peak(b) - peak(a));
  const others = sorted.splice(mostStages - 1);
  const fraction = others[0]!.fraction.map((_, i) =>
    Math.sqrt(others.reduce((sum, curve) => sum + (curve.fraction[i]! || 0) ** 2, 0)),
  );
  return [...sorted, { name: `${others.length} others together`, fraction }];
}

/** Ink is kept for the total: stages take the four hues in turn. */
const stageStyle = (i: number): number => Math.floor(i / 4) * 5 + (i % 4);
