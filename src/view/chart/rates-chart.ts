import { commonRateUnit } from "../words/index.ts";
import { type Box, bottomAxis, makeAxis } from "./axis.ts";
import { type ChartOptions, completeOptions } from "./chart-options.ts";
import { colorOf, seriesStyle } from "./palette.ts";
import { margin } from "./panel.ts";
import { panelHeading, pictureHeader, pictureRoot } from "./picture.ts";
import { type SvgNode, stroked, svgNode, textNode } from "./svg-node.ts";
import { fitText, textWidth } from "./text-width.ts";

/** A rate of a record with its interval; dimensionless. */
export interface NamedRate {
  readonly name: string;
  readonly rate: number;
  readonly interval95: readonly [low: number, high: number];
}

/** One of the scales on which rates are drawn: so wide to either side of the middle. */
export interface RateScale {
  readonly middle: number;
  /** Dimensionless, > 0. */
  readonly half: number;
  /** How many times larger than the first. */
  readonly times: number;
}

/**
 * Scales on which rates of very different sureness can be seen: all of them on the first, the best known on the last,
 * and one between where those are far apart.
 *
 * @param rates - at least one
 * @returns one to three scales about the best known rate, each larger than the one before by a factor of 1, 2 or 5 times
 *   a power of ten
 */
export function rateScales(rates: readonly NamedRate[]): RateScale[] {
  const widthOf = ({ interval95: [low, high] }: NamedRate) => high - low;
  const best = rates.reduce((a, b) => (widthOf(b) < widthOf(a) ? b : a));
  const middle = best.rate;
  const ends = rates.flatMap(({ interval95 }) => interval95.map((end) => Math.abs(end - middle)));
  const half = 1.15 * Math.max(...ends) || 1e-12;
  const most = half / (1.5 * widthOf(best) || half);
  const times = [
    1,
    ...(most > 100 ? [rounded(Math.sqrt(most))] : []),
    ...(most > 3 ? [rounded(most)] : []),
  ];
  return times.map((factor) => ({ middle, half: half / factor, times: factor }));
}

/** The largest of 1, 2, 5, 10, … that is not above a number >= 1. */
function rounded(value: number): number {
  const decade = Number(`1e${Math.floor(Math.log10(value))}`);
  return decade * ([5, 2].find((step) => step * decade <= value) ?? 1);
}

const rowHeight = 22;

/**
 * Rates of several records with their intervals on one scale, and magnified: a panel a scale, a row a record. A rate that
 * lies off a scale is an arrow at its edge.
 *
 * @param rates - at least one
 * @param options - title, width, colours; the height follows from the number of rows
 * @returns the picture
 */
export function ratesChart(rates: readonly NamedRate[], options: ChartOptions): SvgNode {
  const { title, width, theme, idPrefix, paper } = completeOptions(options);
  const scales = rateScales(rates);
  const middle = scales[0]!.middle;
  const best = rates.find(({ rate }) => rate === middle)!.name;
  const header = pictureHeader("Steady rates and their 95 % intervals", title, width, theme);
  const names = Math.min(0.3 * width, Math.max(...rates.map(({ name }) => textWidth(name, 12))));
  const nodes: SvgNode[] = [...header.nodes];
  let top = header.height;
  for (const { half, times } of scales) {
    const heading = panelHeading(times === 1 ? "All" : `${times} times larger`, top, width, theme);
    const box: Box = {
      left: margin + names + 12,
      right: width - margin - 12,
      top: heading.bottom + 8,
      bottom: heading.bottom + 8 + rowHeight * rates.length,
    };
    const rateUnit = options.rateUnit ?? commonRateUnit([half]).name;
    const spec = { kind: "linear", domain: [-half, half], unit: "rate", rateUnit } as const;
    const axis = makeAxis(
      { ...spec, quantity: `Rate less that of ${best}` },
      box.left,
      box.right,
      "text",
    );
    nodes.push(...heading.nodes, bottomAxis(axis, box, theme, null, margin));
    rates.forEach((rate, i) => {
      const y = box.top + rowHeight * (i + 0.5);
      const style = seriesStyle(i);
      nodes.push(
        textNode([margin, y + 4], fitText(rate.name, 12, names), 12, theme.ink),
        ...interval(
          rate,
          y,
          box,
          (value) => axis.position(value - middle),
          colorOf(style.color, theme),
        ),
      );
    });
    top = box.bottom + 44;
  }
  const spoken = rates.map(
    ({ name, rate, interval95: [low, high] }) =>
      `${name}: ${rate.toExponential(3)}, from ${low.toExponential(3)} to ${high.toExponential(3)}.`,
  );
  return pictureRoot(
    {
      heading: "Steady rates",
      description: `As fractions, 95 %. ${spoken.join(" ")}`,
      title,
      idPrefix,
      width,
      height: top + 4,
      theme,
      paper,
    },
    ...nodes,
  );
}

function interval(
  { rate, interval95: [low, high] }: NamedRate,
  y: number,
  { left, right }: Box,
  position: (value: number) => number,
  color: string,
): SvgNode[] {
  const [from, to] = [position(low), position(high)];
  if (to < left || from > right) {
    const [tip, back] = to < left ? [left, left + 9] : [right, right - 9];
    return [svgNode("path", { d: `M${tip} ${y}L${back} ${y - 5}V${y + 5}Z`, fill: color })];
  }
  const [a, b] = [Math.max(left, from), Math.min(right, to)];
  const caps = [from, to]
    .filter((x) => x >= left && x <= right)
    .map((x) => `M${x} ${y - 5}V${y + 5}`);
  const at = position(rate);
  return [
    stroked(`M${a} ${y}H${b}${caps.join("")}`, color, 1.8, { fill: "none" }),
    ...(at >= left && at <= right
      ? [svgNode("circle", { cx: at, cy: y, r: 3.6, fill: color })]
      : []),
  ];
}
