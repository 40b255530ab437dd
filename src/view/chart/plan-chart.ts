import { rateSize, rateUnit, rateUnits } from "../words/index.ts";
import { type ChartOptions, completeOptions } from "./chart-options.ts";
import { markersNode } from "./legend/key-sample.ts";
import { segmentPath } from "./line-path.ts";
import { logLogChart } from "./log-log-chart.ts";
import { givenText } from "./number-text.ts";
import { colorOf, seriesStyle } from "./palette.ts";
import type { Plot } from "./panel.ts";
import { type SvgNode, stroked, svgNode, textNode } from "./svg-node.ts";
import { textWidth } from "./text-width.ts";

/** One way of measuring. */
export interface PlanCurve {
  /** The way of measuring. */
  readonly name: string;
  /** Run lengths; s, > 0, ascending. */
  readonly length: Float64Array;
  /** Predicted half-width of the interval, or standard uncertainty: what the goal is said in; NaN for none. */
  readonly uncertainty: Float64Array;
  /** Run length at which it meets the goal, within the picture or beyond; s, or null where it never does. */
  readonly reaches: number | null;
  /** The same in words, such as `6 h 40 min` or `never`. */
  readonly when: string;
}

/** What the chart shows. */
export interface PlanChartInput {
  readonly strategies: readonly PlanCurve[];
  /** Accuracy asked for; dimensionless, > 0. */
  readonly goal: number;
  /** What the vertical axis means, such as `Half-width of the 95 % interval`. */
  readonly quantity: string;
}

/** Moments people know, to be found along an axis in seconds. */
const landmarks: readonly (readonly [string, number])[] = [
  ["1 min", 60],
  ["1 hour", 3600],
  ["1 day", 86400],
  ["30 days", 30 * 86400],
  ["1 year", 31557600],
];

/**
 * Predicted uncertainty against run length, both logarithmic, for each way of measuring, with the goal.
 *
 * @param input - predictions and goal
 * @param options - title, size, colours
 * @returns the picture; where a way meets the goal it has a ring, and its name says when
 * @throws RangeError if goal is not above zero, arrays differ in length, or nothing is above zero
 */
export function planChart(input: PlanChartInput, options: ChartOptions): SvgNode {
  const { goal, strategies } = input;
  if (!(goal > 0 && goal < Infinity)) {
    throw new RangeError(`planChart: goal must be > 0, got ${goal}`);
  }
  const { theme } = completeOptions(options);
  // The goal and the axis are in one unit.
  const unit = rateUnits.find(({ name }) => name === options.rateUnit) ?? rateUnit(goal);
  const goalText =
    options.rateUnit === "fraction"
      ? `goal ±${givenText(Number(goal.toPrecision(3)))}`
      : `goal ±${rateSize(goal, 3, unit)}`;
  const lastLength = Math.max(...strategies.map(({ length }) => length.at(-1) ?? 0));
  return logLogChart(
    {
      chart: "planChart",
      heading: "How long must the run last?",
      x: { quantity: "Run length", unit: "s" },
      y: { quantity: input.quantity, unit: "rate" },
      curves: strategies.map(({ name, length, uncertainty, when }, i) => ({
        // Its own words stay together where the name takes two lines.
        name: `${name}: ${when.replaceAll(" ", "\u00a0")}`,
        x: length,
        y: uncertainty,
        look: { style: seriesStyle(i), hasLine: true, hasMarkers: false, width: 2 },
      })),
      guides: [],
      isSquare: false,
      headroom: 26,
      alsoY: [goal],
      alsoSeries: [
        {
          text: goalText,
          sample: { color: theme.ink, dash: goalDash, width: 1.25, marker: null },
          at: [lastLength, goal],
        },
      ],
      drawUnder: (plot) => [
        stroked(
          segmentPath(plot.box.left, plot.y.position(goal), plot.box.right, plot.y.position(goal)),
          theme.ink,
          1.25,
          { "stroke-dasharray": goalDash },
        ),
      ],
      drawOver: (plot) => [
        ...drawLandmarks(plot),
        ...strategies.flatMap(({ reaches }, i) => {
          if (reaches === null) return [];
          const x = plot.x.position(reaches);
          if (!(x >= plot.box.left && x <= plot.box.right)) return [];
          const color = colorOf(seriesStyle(i).color, theme);
          const y = plot.y.position(goal);
          return [
            svgNode("circle", { cx: x, cy: y, r: 6, fill: theme.paper }),
            svgNode("circle", { cx: x, cy: y, r: 6, stroke: color, "stroke-width": 1.5 }),
            markersNode(seriesStyle(i).marker, [[x, y]], 2.8, color),
          ];
        }),
      ],
      remarks: `The ${goalText} is a level line.`,
    },
    { ...options, rateUnit: options.rateUnit ?? unit.name },
  );
}

const goalDash = "8 3 2 3 2 3";

/** Names of well-known times along the upper edge, as many as do not run into one another. */
function drawLandmarks({ x, box, theme }: Plot): SvgNode[] {
  let free = box.left;
  return landmarks.flatMap(([text, seconds]) => {
    const at = x.position(seconds);
    const half = textWidth(text, 11) / 2;
    if (at - half < free || at + half > box.right) return [];
    free = at + half + 8;
    return [
      stroked(segmentPath(at, box.top, at, box.top + 6), theme.muted, 1),
      textNode([at, box.top + 18], text, 11, theme.muted, { "text-anchor": "middle" }),
    ];
  });
}
