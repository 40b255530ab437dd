import { type ChartOptions, completeOptions } from "./chart-options.ts";
import { decimatedLine } from "./decimated-line.ts";
import { givenQuantityText, quantityText } from "./display-unit.ts";
import { finiteExtent, padLinear } from "./domain.ts";
import { frame } from "./frame.ts";
import { segmentPath } from "./line-path.ts";
import type { NamedSeries, Plot } from "./panel.ts";
import { type SvgNode, stroked, svgNode, textNode } from "./svg-node.ts";
import { textWidth } from "./text-width.ts";
import type { Theme } from "./theme.ts";

/** What the chart shows. */
export interface BurstChartInput {
  /** Time after the start of the burst; s, ascending. */
  readonly time: Float64Array;
  /** Voltage of the integrator with its noise; V. */
  readonly voltage: Float64Array;
  /** Rectified tone at the receiver; V. Left out of the picture where absent. */
  readonly tone?: Float64Array;
  /** Threshold; V. */
  readonly threshold: number;
  /** Length of the burst; s. */
  readonly burst: number;
  /** From the start of the burst to the crossing; s, or null where the threshold is not crossed. */
  readonly delay: number | null;
  /** Number of the burst, for the heading. */
  readonly number: number;
}

const thresholdDash = "9 4";

/**
 * The integrator's voltage in one burst, rising to the threshold, with the delay marked.
 *
 * @param input - voltages and crossing
 * @param options - title, size, colours
 * @returns the picture
 * @throws RangeError if arrays differ in length or nothing is finite
 */
export function burstChart(input: BurstChartInput, options: ChartOptions): SvgNode {
  const { time, voltage, tone, threshold, burst, delay } = input;
  for (const record of tone ? [voltage, tone] : [voltage]) {
    if (record.length !== time.length) {
      throw new RangeError(
        `burstChart: arrays must be of equal length, got ${time.length} and ${record.length}`,
      );
    }
  }
  const span = finiteExtent(time);
  const extent = finiteExtent(voltage, tone ?? [], [0, threshold]);
  if (span === null || extent === null || finiteExtent(voltage) === null) {
    throw new RangeError("burstChart: voltage must hold at least one finite value, got none");
  }
  const { theme } = completeOptions(options);
  const last = voltage.findLastIndex(Number.isFinite);
  const series: NamedSeries[] = [
    {
      text: "integrator voltage",
      sample: { color: theme.hues.blue, dash: "", width: 2.25, marker: null },
      at: [time[last]!, voltage[last]!],
    },
    {
      text: `threshold, ${givenQuantityText(threshold, "V")}`,
      sample: { color: theme.hues.vermilion, dash: thresholdDash, marker: null },
      at: [span[1], threshold],
    },
    {
      text: "burst",
      sample: { color: theme.muted, dash: null, marker: null, band: burstBand(theme) },
      at: [burst, extent[0]],
    },
  ];
  if (tone) {
    series.push({
      text: "rectified tone",
      sample: { color: theme.hues.green, dash: "", width: 1, marker: null },
      at: [Math.min(burst, span[1]), extent[1]],
    });
  }
  const result =
    delay === null
      ? "The threshold is not crossed: no step."
      : `The threshold is crossed ${quantityText(delay, "s", 3)} after the start of the burst.`;
  return frame(
    {
      heading: delay === null ? `Burst ${input.number}: no step` : `Burst ${input.number}`,
      description: `Voltage of the integrator in burst ${input.number}, which lasts ${givenQuantityText(burst, "s")}; the threshold is ${givenQuantityText(threshold, "V")}. ${result}`,
      x: { kind: "linear", domain: span, quantity: "Time after the start of the burst", unit: "s" },
      y: {
        kind: "linear",
        domain: padLinear(extent, 0.08),
        quantity: "Voltage",
        unit: "V",
      },
      series,
      headroom: 34,
      draw: (plot) => draw(input, plot),
      drawOver: (plot) => (delay === null ? [] : drawDelay(delay, threshold, plot)),
    },
    options,
  );
}

const burstBand = (theme: Theme) => ({ fill: theme.muted, opacity: 0.16 });

function draw(input: BurstChartInput, plot: Plot): SvgNode[] {
  const { x, y, box, theme } = plot;
  const px = Float64Array.from(input.time, (t) => x.position(t));
  const curve = (values: Float64Array, color: string, width: number) =>
    stroked(decimatedLine(px, values, y.position), color, width, { "stroke-linejoin": "round" });
  const band = burstBand(theme);
  const left = Math.max(box.left, x.position(0));
  return [
    svgNode("rect", {
      x: left,
      y: box.top,
      width: Math.max(0, x.position(input.burst) - left),
      height: box.bottom - box.top,
      fill: band.fill,
      "fill-opacity": band.opacity,
    }),
    ...(input.tone ? [curve(input.tone, theme.hues.green, 1)] : []),
    stroked(
      segmentPath(box.left, y.position(input.threshold), box.right, y.position(input.threshold)),
      theme.hues.vermilion,
      1.75,
      { "stroke-dasharray": thresholdDash },
    ),
    curve(input.voltage, theme.hues.blue, 2.25),
  ];
}

/** A dimension line from the start of the burst to the crossing, with the delay written on it. */
function drawDelay(delay: number, threshold: number, { x, y, box, theme }: Plot): SvgNode[] {
  const [start, end] = [x.position(0), x.position(delay)];
  const crossing = y.position(threshold);
  const level = box.top + 12;
  const text = `delay ${quantityText(delay, "s", 3)}`;
  const fitsAtRight = end + 8 + textWidth(text, 12) < box.right;
  return [
    stroked(
      `${segmentPath(end, level - 4, end, box.bottom)}${segmentPath(start, level - 4, start, box.bottom)}`,
      theme.ink,
      1,
      { "stroke-dasharray": "2 3" },
    ),
    stroked(
      `${segmentPath(start, level, end, level)}${arrow(start, level, 1)}${arrow(end, level, -1)}`,
      theme.ink,
      1.25,
    ),
    svgNode("circle", {
      cx: end,
      cy: crossing,
      r: 4.5,
      fill: theme.paper,
      stroke: theme.ink,
      "stroke-width": 1.75,
    }),
    textNode(
      [fitsAtRight ? end + 8 : end - 8, level + (fitsAtRight ? 4 : 17)],
      text,
      12,
      theme.ink,
      { "font-weight": 600, "text-anchor": fitsAtRight ? "start" : "end" },
    ),
  ];
}

const arrow = (x: number, y: number, direction: 1 | -1): string =>
  `${segmentPath(x + 5 * direction, y - 3, x, y)}${segmentPath(x, y, x + 5 * direction, y + 3)}`;
