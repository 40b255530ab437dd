import { type ChartOptions, completeOptions } from "./chart-options.ts";
import { quantityText } from "./display-unit.ts";
import { type Domain, finiteExtent, padLog } from "./domain.ts";
import { frame } from "./frame.ts";
import { type Curve, type CurveLook, curveSample, drawCurve, lastPoint } from "./log-series.ts";
import type { NamedSeries, Plot } from "./panel.ts";
import {
  drawPowerLine,
  type PowerLine,
  powerAt,
  powerLineSample,
  powerLineText,
} from "./power-line.ts";
import type { SvgNode } from "./svg-node.ts";

/** A curve with its name and its look. */
export interface NamedCurve extends Curve {
  readonly name: string;
  readonly look: CurveLook;
}

/** A chart of curves on two logarithmic axes. */
export interface LogLogSpec {
  /** The chart's function, for messages. */
  readonly chart: string;
  readonly heading: string;
  readonly x: { readonly quantity: string; readonly unit: string };
  readonly y: { readonly quantity: string; readonly unit: string };
  readonly curves: readonly NamedCurve[];
  readonly guides: readonly PowerLine[];
  readonly isSquare: boolean;
  /** Room above the data, for marks of its own; px. */
  readonly headroom?: number;
  /** Further values that must be seen on the vertical axis. */
  readonly alsoY?: readonly number[];
  readonly alsoSeries?: readonly NamedSeries[];
  readonly drawUnder?: (plot: Plot) => readonly SvgNode[];
  readonly drawOver?: (plot: Plot) => readonly SvgNode[];
  /** Sentences to follow the description of the curves. */
  readonly remarks?: string;
}

/**
 * The common part of the charts with two logarithmic axes: curves, guide lines, names, description.
 *
 * @param spec - curves and axes
 * @param options - title, size, colours
 * @returns the picture
 * @throws RangeError if arrays of a curve differ in length, or no curve has a point above zero
 */
export function logLogChart(spec: LogLogSpec, options: ChartOptions): SvgNode {
  const { theme } = completeOptions(options);
  for (const curve of spec.curves) {
    requireEqualLengths(spec.chart, curve);
  }
  const points = spec.curves.map(pointsOf);
  const x = requireExtent(spec.chart, finiteExtent(...points.map((point) => point.x)));
  const y = requireExtent(
    spec.chart,
    finiteExtent(...points.map((point) => point.y), (spec.alsoY ?? []).filter(isPositive)),
  );
  return frame(
    {
      heading: spec.heading,
      description: describe(spec),
      x: { kind: "log", domain: padLog(x, 0.08), ...spec.x },
      y: { kind: "log", domain: padLog(y, 0.12), ...spec.y },
      isSquare: spec.isSquare,
      headroom: spec.headroom ?? 0,
      series: [
        ...spec.curves.flatMap((curve) => {
          const end = lastPoint(curve);
          const sample = curveSample(curve.look, theme);
          return end === null ? [] : [{ text: curve.name, sample, at: end }];
        }),
        ...spec.guides.map((guide) => ({
          text: powerLineText(guide),
          sample: powerLineSample(guide, theme),
          at: [guide.to, powerAt(guide, guide.to)] as const,
        })),
        ...(spec.alsoSeries ?? []),
      ],
      draw: (plot) => [
        ...(spec.drawUnder?.(plot) ?? []),
        ...spec.guides.map((guide) => drawPowerLine(guide, plot)),
        ...spec.curves.flatMap((curve) => drawCurve(curve, curve.look, plot)),
      ],
      ...(spec.drawOver ? { drawOver: spec.drawOver } : {}),
    },
    options,
  );
}

const isPositive = (value: number): boolean => value > 0 && value < Infinity;

/** What of a curve is drawn, confidence bars included. */
function pointsOf(curve: Curve): { readonly x: Float64Array; readonly y: number[] } {
  const isDrawn = (i: number) => isPositive(curve.x[i]!) && isPositive(curve.y[i]!);
  const bars = [...(curve.low ?? []), ...(curve.high ?? [])];
  return {
    x: curve.x.filter((_, i) => isDrawn(i)),
    y: [...curve.y.filter((_, i) => isDrawn(i)), ...bars.filter(isPositive)],
  };
}

function requireExtent(chart: string, extent: Domain | null): Domain {
  if (extent === null) {
    throw new RangeError(`${chart}: curves must hold at least one point above zero, got none`);
  }
  return extent;
}

function requireEqualLengths(chart: string, curve: NamedCurve): void {
  for (const record of [curve.y, curve.low, curve.high]) {
    if (record && record.length !== curve.x.length) {
      throw new RangeError(
        `${chart}: the records of "${curve.name}" must be of equal length, got ${curve.x.length} and ${record.length}`,
      );
    }
  }
}

function describe(spec: LogLogSpec): string {
  const parts = spec.curves.map((curve) => {
    const first = curve.x.findIndex((x, i) => isPositive(x) && isPositive(curve.y[i]!));
    const end = lastPoint(curve);
    if (first < 0 || end === null) {
      return `${curve.name}: no values.`;
    }
    const from = `${quantityText(curve.y[first]!, spec.y.unit, 2)} at ${quantityText(curve.x[first]!, spec.x.unit, 2)}`;
    const to = `${quantityText(end[1], spec.y.unit, 2)} at ${quantityText(end[0], spec.x.unit, 2)}`;
    return `${curve.name}: from ${from} to ${to}.`;
  });
  return [
    `${spec.y.quantity} against ${spec.x.quantity.toLowerCase()}, both axes logarithmic.`,
    ...parts,
    ...(spec.guides.length === 0
      ? []
      : [`Guide lines: ${spec.guides.map(powerLineText).join("; ")}.`]),
    ...(spec.remarks ? [spec.remarks] : []),
  ].join(" ");
}
