import { type ChartOptions, completeOptions } from "./chart-options.ts";
import { quantityText } from "./display-unit.ts";
import { type Domain, finiteExtent, padLinear } from "./domain.ts";
import { frame } from "./frame.ts";
import { numberText } from "./number-text.ts";
import type { NamedSeries } from "./panel.ts";
import {
  bandOpacity,
  crowdOpacity,
  drawMean,
  drawReadings,
  isCrowded,
  truthDash,
} from "./reading-marks.ts";
import type { ReadingsChartInput } from "./readings-chart-input.ts";
import { robustDomain } from "./robust-domain.ts";
import type { SvgNode } from "./svg-node.ts";
import type { Theme } from "./theme.ts";

/** The mean gets a panel of its own where it would be this many times larger in it. */
const worthMagnifying = 5;

/**
 * Single readings in time, with their running mean, its uncertainty as a band, and the truth.
 *
 * Where the mean has become so sure that nothing of it could be seen beside the readings, a second panel
 * shows it magnified.
 *
 * @param input - readings and what follows from them
 * @param options - title, size, colours
 * @returns the picture; wild readings beyond the scale are triangles at its edge
 * @throws RangeError if arrays differ in length or no reading is finite
 */
export function readingsChart(input: ReadingsChartInput, options: ChartOptions): SvgNode {
  const { time, reading, truth, quantity = "Rate", unit = "rate" } = input;
  for (const record of [reading, input.mean, input.halfWidth]) {
    if (record.length !== time.length) {
      throw new RangeError(
        `readingsChart: arrays must be of equal length, got ${time.length} and ${record.length}`,
      );
    }
  }
  const seen = robustDomain(reading);
  const span = finiteExtent(time);
  if (seen === null || span === null) {
    throw new RangeError("readingsChart: reading must hold at least one finite value, got none");
  }
  const { theme } = completeOptions(options);
  const last = input.mean.findLastIndex(Number.isFinite);
  const [low, high] = finiteExtent(seen, truth === null ? [] : [truth])!;
  const beyond = reading.filter((value) => value < low || value > high).length;
  const x = { kind: "linear", domain: padLinear(span, 0.01), quantity: "Time", unit: "s" } as const;
  const meanSeries = nameMean(input, last, theme);
  const closeUp = magnified(input);
  const isMagnified = closeUp !== null && high - low >= worthMagnifying * (closeUp[1] - closeUp[0]);
  return frame(
    {
      heading: last < 0 ? "Single readings" : "Single readings and their running mean",
      description: describe(input, beyond, last),
      x,
      y: { kind: "linear", domain: padLinear([low, high], 0.06), quantity, unit },
      series: [
        nameReadings(reading, [span[1], seen[1]], theme),
        ...meanSeries,
        ...(beyond === 0
          ? []
          : [
              {
                text: `${beyond} ${beyond === 1 ? "reading" : "readings"} beyond the scale`,
                sample: { color: theme.ink, dash: null, marker: "triangle" } as const,
                at: [span[1], low] as const,
              },
            ]),
      ],
      draw: (plot) => [...drawReadings(input, [low, high], plot), ...drawMean(input, plot)],
      ...(isMagnified
        ? {
            below: {
              heading: `The mean alone, ${numberText((high - low) / (closeUp[1] - closeUp[0]), 2)} times as large`,
              x,
              y: { kind: "linear", domain: padLinear(closeUp, 0.06), quantity, unit },
              series: meanSeries,
              draw: (plot) => drawMean(input, plot),
            },
          }
        : {}),
    },
    options,
  );
}

/** What is to be seen of the mean alone: mean, interval and truth once a quarter of the readings are in. */
function magnified({ mean, halfWidth, truth }: ReadingsChartInput): Domain | null {
  const from = Math.ceil(mean.length / 4);
  const low = mean.map((value, i) => (i < from ? NaN : value - halfWidth[i]!));
  const high = mean.map((value, i) => (i < from ? NaN : value + halfWidth[i]!));
  const band = finiteExtent(low, high);
  return band && finiteExtent(band, truth === null ? [] : [truth]);
}

const nameReadings = (
  reading: Float64Array,
  at: readonly [number, number],
  theme: Theme,
): NamedSeries => ({
  text: isCrowded(reading) ? "single readings, lowest to highest" : "single readings",
  sample: {
    color: theme.hues.green,
    dash: null,
    marker: isCrowded(reading) ? null : "circle",
    ...(isCrowded(reading) ? { band: { fill: theme.hues.green, opacity: crowdOpacity } } : {}),
  },
  at,
});

function nameMean(
  { time, mean, truth }: ReadingsChartInput,
  last: number,
  theme: Theme,
): NamedSeries[] {
  const end = time.at(-1)!;
  const series: NamedSeries[] = [];
  if (last >= 0) {
    series.push({
      text: "mean of all readings so far, and its 95\u00a0% interval",
      sample: {
        color: theme.hues.blue,
        dash: "",
        width: 2,
        marker: null,
        band: { fill: theme.hues.blue, opacity: bandOpacity },
      },
      at: [end, mean[last]!],
    });
  }
  if (truth !== null) {
    series.push({
      text: "truth",
      sample: { color: theme.hues.vermilion, dash: truthDash, marker: null },
      at: [end, truth],
    });
  }
  return series;
}

function describe(input: ReadingsChartInput, beyond: number, last: number): string {
  const { reading, mean, halfWidth, truth, unit = "rate", quantity = "Rate" } = input;
  const text = (value: number) => quantityText(value, unit, 3);
  const extent = finiteExtent(reading)!;
  const count = reading.filter(Number.isFinite).length;
  const parts = [
    `${quantity} in time: ${count} single readings between ${text(extent[0])} and ${text(extent[1])}.`,
  ];
  if (last >= 0) {
    const width = halfWidth[last]!;
    const interval = Number.isFinite(width) ? `, ±${text(width)} at 95 %` : "";
    parts.push(`Their mean comes to ${text(mean[last]!)}${interval}.`);
  }
  if (truth !== null) {
    parts.push(`The truth is ${text(truth)}.`);
  }
  if (beyond > 0) {
    parts.push(`${beyond} of the readings lie beyond the scale.`);
  }
  return parts.join(" ");
}
