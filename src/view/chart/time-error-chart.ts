import { type ChartOptions, completeOptions } from "./chart-options.ts";
import { decimatedLine } from "./decimated-line.ts";
import { quantityText } from "./display-unit.ts";
import { finiteExtent, padLinear } from "./domain.ts";
import { frame } from "./frame.ts";
import { markersNode } from "./legend/key-sample.ts";
import { segmentPath } from "./line-path.ts";
import { givenText } from "./number-text.ts";
import type { NamedSeries, Plot } from "./panel.ts";
import { type SvgNode, stroked, svgNode } from "./svg-node.ts";
import type { Theme } from "./theme.ts";

/** What the chart shows. */
export interface TimeErrorChartInput {
  /** Nominal time of each tick or reading; s, ascending. */
  readonly time: Float64Array;
  /** Time error there, positive is early; s, NaN for a gap. */
  readonly timeError: Float64Array;
  /** A straight line fitted to it: intercept + slope · time; or null. */
  readonly fit: { readonly intercept: number; readonly slope: number } | null;
  /** Where a step was lost or gained. */
  readonly slips: readonly { readonly at: number; readonly steps: number }[];
  /** When the clock ran on its own oscillator; s. */
  readonly fallback: readonly { readonly from: number; readonly to: number }[];
}

const fitDash = "9 4";

/**
 * Accumulated time error in time, with a fitted line, slips of whole steps, and spans without drive.
 *
 * @param input - record, line and events
 * @param options - title, size, colours
 * @returns the picture
 * @throws RangeError if arrays differ in length or nothing is finite
 */
export function timeErrorChart(input: TimeErrorChartInput, options: ChartOptions): SvgNode {
  const { time, timeError, fit, slips, fallback } = input;
  if (timeError.length !== time.length) {
    throw new RangeError(
      `timeErrorChart: arrays must be of equal length, got ${time.length} and ${timeError.length}`,
    );
  }
  const span = finiteExtent(time);
  const extent = finiteExtent(timeError);
  if (span === null || extent === null) {
    throw new RangeError("timeErrorChart: timeError must hold at least one finite value, got none");
  }
  const { theme } = completeOptions(options);
  const lineAt = (t: number) => (fit ? fit.intercept + fit.slope * t : NaN);
  const seen = finiteExtent(extent, [lineAt(span[0]), lineAt(span[1])])!;
  const lastIndex = timeError.findLastIndex(Number.isFinite);
  const series: NamedSeries[] = [
    {
      text: "time error",
      sample: { color: theme.hues.blue, dash: "", marker: null },
      at: [time[lastIndex]!, timeError[lastIndex]!],
    },
  ];
  if (fit) {
    series.push({
      text: `line fit: rate ${quantityText(fit.slope, "rate", 3)}`,
      sample: { color: theme.hues.vermilion, dash: fitDash, marker: null },
      at: [span[1], lineAt(span[1])],
    });
  }
  if (slips.length > 0) {
    series.push({
      text: slips.length === 1 ? `slip of ${stepText(slips[0]!.steps)}` : `${slips.length} slips`,
      sample: { color: theme.hues.purple, dash: null, marker: "diamond" },
      at: [span[1], seen[1]],
    });
  }
  if (fallback.length > 0) {
    series.push({
      text: "on its own oscillator (free-running)",
      sample: { ...spanSample(theme), dash: null, marker: null },
      at: [span[1], seen[0]],
    });
  }
  return frame(
    {
      heading: "Accumulated time error",
      description: describe(input, extent),
      x: { kind: "linear", domain: padLinear(span, 0.01), quantity: "Time", unit: "s" },
      y: {
        kind: "linear",
        domain: padLinear(seen, 0.07),
        quantity: "Time error, positive is early",
        unit: "s",
      },
      series,
      headroom: slips.length > 0 ? 12 : 0,
      draw: (plot) => draw(input, plot, lineAt),
    },
    options,
  );
}

const spanSample = (theme: Theme) => ({
  color: theme.muted,
  band: { fill: theme.muted, opacity: 0.22 },
});

function draw(input: TimeErrorChartInput, plot: Plot, lineAt: (t: number) => number): SvgNode[] {
  const { time, timeError, slips, fallback, fit } = input;
  const { x, y, box, theme } = plot;
  const px = Float64Array.from(time, (t) => x.position(t));
  const nodes = fallback.map(({ from, to }) =>
    svgNode("rect", {
      x: x.position(from),
      y: box.top,
      // A span too short to be seen is drawn a pixel wide.
      width: Math.max(1, x.position(to) - x.position(from)),
      height: box.bottom - box.top,
      fill: theme.muted,
      "fill-opacity": 0.22,
    }),
  );
  if (slips.length > 0) {
    nodes.push(
      stroked(
        slips
          .map(({ at }) => segmentPath(x.position(at), box.top, x.position(at), box.bottom))
          .join(""),
        theme.hues.purple,
        1,
        { "stroke-dasharray": "1 3" },
      ),
      markersNode(
        "diamond",
        slips.map(({ at }) => [x.position(at), box.top + 4]),
        3.2,
        theme.hues.purple,
      ),
    );
  }
  nodes.push(
    stroked(decimatedLine(px, timeError, y.position), theme.hues.blue, 1.5, {
      "stroke-linejoin": "round",
    }),
  );
  if (fit) {
    const [from, to] = [time[0]!, time.at(-1)!];
    nodes.push(
      stroked(
        segmentPath(
          x.position(from),
          y.position(lineAt(from)),
          x.position(to),
          y.position(lineAt(to)),
        ),
        theme.hues.vermilion,
        1.75,
        { "stroke-dasharray": fitDash },
      ),
    );
  }
  return nodes;
}

const stepText = (steps: number): string =>
  `${steps > 0 ? "+" : ""}${givenText(steps)} ${Math.abs(steps) === 1 ? "step" : "steps"}`;

function describe(input: TimeErrorChartInput, extent: readonly [number, number]): string {
  const { fit, slips, fallback } = input;
  const text = (value: number) => quantityText(value, "s", 3);
  const parts = [`Time error in time, between ${text(extent[0])} and ${text(extent[1])}.`];
  if (fit) {
    parts.push(`The line fit has a rate of ${quantityText(fit.slope, "rate", 3)}.`);
  }
  if (slips.length > 0) {
    const list = slips.slice(0, 10).map(({ at, steps }) => `${stepText(steps)} at ${text(at)}`);
    parts.push(`Slips: ${list.join(", ")}${slips.length > 10 ? " and more" : ""}.`);
  }
  if (fallback.length > 0) {
    const list = fallback.slice(0, 10).map(({ from, to }) => `from ${text(from)} to ${text(to)}`);
    parts.push(
      `On its own oscillator: ${list.join(", ")}${fallback.length > 10 ? " and more" : ""}.`,
    );
  }
  return parts.join(" ");
}
