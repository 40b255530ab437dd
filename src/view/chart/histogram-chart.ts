import { axisUnit } from "./axis.ts";
import { type ChartOptions, completeOptions } from "./chart-options.ts";
import { givenQuantityText, quantityText } from "./display-unit.ts";
import { finiteExtent, padLinear } from "./domain.ts";
import { frame } from "./frame.ts";
import { segmentPath } from "./line-path.ts";
import { numberText } from "./number-text.ts";
import type { Plot } from "./panel.ts";
import { robustDomain } from "./robust-domain.ts";
import { roundCoordinate, type SvgNode, stroked, svgNode } from "./svg-node.ts";

/** Readings of one gate length. */
export interface GateReadings {
  /** Gate length; s, > 0. */
  readonly gate: number;
  /** Single readings; in `unit`, NaN for none. */
  readonly reading: Float64Array;
}

/** What the chart shows. */
export interface HistogramChartInput {
  /** Rows from top to bottom, most often by growing gate. */
  readonly gates: readonly GateReadings[];
  /** What is true; in `unit`, or null where nobody knows. */
  readonly truth: number | null;
  /** What is read; default `Rate`. */
  readonly quantity?: string;
  /** Its SI unit, or `rate` for rates as a fraction, which is the default. */
  readonly unit?: string;
}

const barOpacity = 0.8;
const truthDash = "9 4";

/** Share of a row that its highest bar takes. */
const fullness = 0.86;

/**
 * Histograms of single readings, a row for each gate length over one common axis: how they close in.
 *
 * @param input - readings by gate
 * @param options - title, size, colours
 * @returns the picture; each row is scaled to its own highest bar, its spread stands in its name
 * @throws RangeError if there is no row, or no reading is finite
 */
export function histogramChart(input: HistogramChartInput, options: ChartOptions): SvgNode {
  const { gates, truth, quantity = "Rate", unit = "rate" } = input;
  const seen = finiteExtent(
    ...gates.map(({ reading }) => robustDomain(reading) ?? []),
    truth === null ? [] : [truth],
  );
  if (seen === null || gates.every(({ reading }) => finiteExtent(reading) === null)) {
    throw new RangeError("histogramChart: gates must hold at least one finite reading, got none");
  }
  const { theme } = completeOptions(options);
  const domain = padLinear(seen, 0.03);
  const rows = gates.length;
  // In the unit of the axis, and held together where a name takes two lines.
  const shown = axisUnit({ kind: "linear", domain, unit, rateUnit: options.rateUnit });
  const inUnit = (value: number) =>
    shown.unit.endsWith("/day")
      ? `${numberText(value * shown.factor, 2)}\u00a0${shown.unit}`
      : quantityText(value, unit === "rate" ? "1" : unit, 2).replaceAll(" ", "\u00a0");
  const names = gates.map(({ gate, reading }) => {
    const finite = reading.filter(Number.isFinite);
    const beyond = finite.filter((value) => value < domain[0] || value > domain[1]).length;
    const spreadText = finite.length > 1 ? `, spread ${inUnit(standardDeviation(finite))}` : "";
    const beyondText = beyond === 0 ? "" : `, ${beyond} beyond the scale`;
    const count = finite.length === 1 ? "1 reading" : `${finite.length} readings`;
    return `gate ${givenQuantityText(gate, "s")}: ${count}${spreadText}${beyondText}`;
  });
  return frame(
    {
      heading: "Single readings at different gate lengths",
      description: `Histograms of single readings, one row a gate length. ${names.join(". ")}.${truth === null ? "" : ` The truth is ${quantityText(truth, unit, 3)}.`}`,
      x: { kind: "linear", domain, quantity, unit },
      y: {
        kind: "linear",
        domain: [0, rows],
        quantity: "Readings a bin, each row to its own height",
        unit: "",
        hasTicks: false,
      },
      series: [
        ...names.map((text, k) => ({
          text,
          sample: {
            color: theme.hues.blue,
            dash: null,
            marker: null,
            band: { fill: theme.hues.blue, opacity: barOpacity },
          },
          at: [domain[1], rows - k - 0.6] as const,
        })),
        ...(truth === null
          ? []
          : [
              {
                text: "truth",
                sample: { color: theme.hues.vermilion, dash: truthDash, marker: null },
                at: [domain[1], 0] as const,
              },
            ]),
      ],
      // The truth lies under the bars: a spike as narrow as the line must still be seen.
      draw: (plot) => [
        ...(truth === null ? [] : [drawTruth(truth, plot)]),
        ...gates.flatMap(({ reading }, k) => drawRow(reading, rows - k - 1, plot)),
      ],
    },
    options,
  );
}

function drawTruth(truth: number, { x, box, theme }: Plot): SvgNode {
  return stroked(
    segmentPath(x.position(truth), box.top, x.position(truth), box.bottom),
    theme.hues.vermilion,
    1.75,
    { "stroke-dasharray": truthDash },
  );
}

/** Bars of one row, with their common base line. */
function drawRow(reading: Float64Array, base: number, plot: Plot): SvgNode[] {
  const { x, y, box, theme } = plot;
  const foot = y.position(base);
  const baseLine = stroked(segmentPath(box.left, foot, box.right, foot), theme.muted, 1);
  const pixels = reading
    .map((value) => x.position(value))
    .filter((at) => at >= box.left && at <= box.right)
    .sort();
  if (pixels.length === 0) {
    return [baseLine];
  }
  const width = binWidth(pixels);
  const counts = new Float64Array(Math.floor((box.right - box.left) / width) + 1);
  for (const at of pixels) {
    counts[Math.floor((at - box.left) / width)]! += 1;
  }
  const highest = Math.max(...counts);
  const rowHeight = (foot - y.position(base + 1)) * fullness;
  const bars: string[] = [];
  counts.forEach((count, bin) => {
    if (count > 0) {
      const left = roundCoordinate(box.left + bin * width);
      const height = roundCoordinate((count / highest) * rowHeight);
      const thick = roundCoordinate(Math.max(1, width - 0.5));
      bars.push(`M${left} ${roundCoordinate(foot)}v${-height}h${thick}v${height}z`);
    }
  });
  return [
    svgNode("path", { d: bars.join(""), fill: theme.hues.blue, "fill-opacity": barOpacity }),
    baseLine,
  ];
}

/** Width of a bin by Freedman and Diaconis 1981, 2·IQR/n^⅓, but never too thin to be seen; px. */
function binWidth(sorted: Float64Array): number {
  const at = (share: number) => sorted[Math.floor(share * (sorted.length - 1))]!;
  return Math.min(60, Math.max(2.5, (2 * (at(0.75) - at(0.25))) / Math.cbrt(sorted.length)));
}

/** Sample standard deviation, n − 1 in the divisor. */
function standardDeviation(values: Float64Array): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return Math.sqrt(squares / (values.length - 1));
}
