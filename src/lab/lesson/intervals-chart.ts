import {
  type ChartOptions,
  darkTheme,
  frame,
  lightTheme,
  type SvgNode,
  svgNode,
} from "../../view/chart/index.ts";
import { msPerDay } from "./amounts.ts";

/** Intervals of many runs, as errors of their estimates. */
export interface IntervalsChartInput {
  readonly name: string;
  /** The rate they are held against, in words. */
  readonly which: string;
  readonly error: Float64Array;
  readonly width: Float64Array;
  readonly missed: number;
  /** How far the axis reaches to either side: the same whichever of several estimates is shown. */
  readonly reach: number;
}

/**
 * A stack of intervals, one a run, about the error of each estimate; those that miss are drawn thick.
 *
 * @param input - errors and half-widths; dimensionless
 * @param options - title, size, colours
 */
export function intervalsChart(input: IntervalsChartInput, options: ChartOptions): SvgNode {
  const { error, width, missed, name, which, reach } = input;
  const { ink, hues } = options.theme === darkTheme ? darkTheme : lightTheme;
  const most = reach * msPerDay || 1;
  const held = hues.blue;
  const lost = hues.vermilion;
  return frame(
    {
      heading: `${error.length} intervals by ${name}: ${missed} miss`,
      description: `Intervals at 95 % of ${error.length} runs by ${name}; ${missed} of them do not hold ${which}.`,
      x: { kind: "linear", domain: [-most, most], quantity: "Estimate less truth", unit: "ms/day" },
      y: {
        kind: "linear",
        domain: [error.length + 0.5, 0.5],
        quantity: "Run",
        unit: "",
        hasTicks: false,
      },
      series: [
        { text: "holds", sample: { color: held, dash: "", width: 1.5, marker: null }, at: [0, 1] },
        {
          text: "misses",
          sample: { color: lost, dash: "", width: 3.5, marker: null },
          at: [0, error.length / 2],
        },
        {
          text: which,
          sample: { color: ink, dash: "", width: 1, marker: null },
          at: [0, error.length],
        },
      ],
      draw: ({ x, y, box }) => [
        svgNode("path", {
          d: `M${x.position(0)} ${box.top}V${box.bottom}`,
          stroke: ink,
          "stroke-width": 1,
        }),
        ...[...error].map((value, i) => {
          const [from, to] = [value - width[i]!, value + width[i]!].map((end) =>
            Math.max(box.left - 9, Math.min(box.right + 9, x.position(end * msPerDay))),
          );
          const isHeld = Math.abs(value) <= width[i]!;
          return svgNode("path", {
            d: `M${from!.toFixed(1)} ${y.position(i + 1).toFixed(1)}H${to!.toFixed(1)}`,
            stroke: isHeld ? held : lost,
            "stroke-width": isHeld ? 1.3 : 3.5,
          });
        }),
      ],
    },
    options,
  );
}
