import { scaleLinear, scaleLog } from "d3-scale";
import { rateUnits } from "../words/index.ts";
import { type DisplayUnit, displayUnit, fractionNote } from "./display-unit.ts";
import type { Domain } from "./domain.ts";
import { segmentPath } from "./line-path.ts";
import { type SvgNode, stroked, svgNode, textNode } from "./svg-node.ts";
import { fitText, textWidth } from "./text-width.ts";
import type { Theme } from "./theme.ts";
import { linearTicks, logTicks, type Tick } from "./ticks.ts";

/** Size of the numbers along an axis; px. */
export const tickSize = 11;

/** Size of its title; px. */
export const axisTitleSize = 12;

/** What an axis shows. */
export interface AxisSpec {
  readonly kind: "linear" | "log";
  /** In SI units; above zero for a logarithmic axis. */
  readonly domain: Domain;
  /** The quantity, in words. */
  readonly quantity: string;
  /** Its SI unit, `1` for a pure number, `rate` for a rate to be shown as a time a
   * day, `fraction` for one to be shown as it is, or the empty string where there is nothing to count in. */
  readonly unit: string;
  /** Unit asked for, of a rate: `ms/day`, …, or `fraction`; else one that suits its numbers. */
  readonly rateUnit?: string | undefined;
  /** False for an axis without numbers and lines. */
  readonly hasTicks?: boolean;
}

/** An axis laid along a stretch of pixels. */
export interface Axis {
  /** From a value in SI units to a pixel; not clamped. */
  readonly position: (value: number) => number;
  readonly domain: Domain;
  readonly ticks: readonly { readonly at: number; readonly text: string | null }[];
  /** Quantity and unit. */
  readonly title: string;
  /** What a unit of rate is as a fraction, or a fraction in such a unit; null where neither is shown. */
  readonly note: string | null;
}

/**
 * Lays an axis along a stretch of pixels.
 *
 * @param spec - what it shows; a linear axis is shown in a unit that suits its numbers
 * @param from - pixel of the lower end
 * @param to - pixel of the upper end
 * @param room - room a number needs along the axis; px, > 0, or `text` for what its text takes
 * @returns scale, ticks and title
 */
export function makeAxis(spec: AxisSpec, from: number, to: number, room: number | "text"): Axis {
  const [low, high] = spec.domain;
  const length = Math.abs(to - from);
  const isLog = spec.kind === "log";
  const shown = axisUnit(spec);
  const position = (isLog ? scaleLog() : scaleLinear()).domain([low, high]).range([from, to]);
  const [lowest, highest] = [low * shown.factor, high * shown.factor];
  const ticks =
    spec.hasTicks === false
      ? []
      : isLog
        ? logTicks(lowest, highest, length, room === "text" ? logRoom : room)
        : room === "text"
          ? fittingTicks(lowest, highest, length)
          : linearTicks(lowest, highest, length / room);
  return {
    position: (value) => position(value),
    domain: spec.domain,
    ticks: ticks.map((tick) => ({ at: position(tick.value / shown.factor), text: tick.text })),
    title:
      spec.unit === "" || shown.unit === "" ? spec.quantity : `${spec.quantity} (${shown.unit})`,
    note: noteOf(spec.unit, shown.unit),
  };
}

/** The unit of an axis: that asked for, or one that suits its numbers. */
export function axisUnit({
  kind,
  domain: [low, high],
  unit,
  rateUnit,
}: Pick<AxisSpec, "kind" | "domain" | "unit" | "rateUnit">): DisplayUnit {
  const isRate = unit === "rate" && rateUnit !== "fraction";
  const asked = isRate && rateUnits.find(({ name }) => name === rateUnit);
  if (asked) return { factor: 1 / asked.fraction, unit: asked.name };
  const largest = kind === "log" ? Math.sqrt(low * high) : Math.max(Math.abs(low), Math.abs(high));
  if (isRate) return displayUnit(largest, "rate");
  const isPure = unit === "rate" || unit === "fraction" || unit === "1";
  if (kind === "log") return { factor: 1, unit: isPure ? "" : unit };
  return displayUnit(largest, isPure ? "1" : unit);
}

/** What relates a time a day and a fraction; null for other quantities. */
function noteOf(unit: string, shown: string): string | null {
  if (unit === "rate" && shown.endsWith("/day")) return fractionNote(shown);
  return unit === "rate" || unit === "fraction" ? "10⁻⁸ = 0.864 ms/day" : fractionNote(unit);
}

/** Room for a power of ten along a horizontal axis; px. */
const logRoom = 44;

/** As many ticks, up to nine, as have room for their numbers side by side. */
function fittingTicks(low: number, high: number, length: number): Tick[] {
  for (let most = 9; most > 2; most--) {
    const ticks = linearTicks(low, high, most);
    const widest = Math.max(...ticks.map((tick) => textWidth(tick.text ?? "", tickSize)));
    const apart =
      ticks.length < 2 ? length : ((ticks[1]!.value - ticks[0]!.value) / (high - low)) * length;
    if (apart >= widest + 14) {
      return ticks;
    }
  }
  return linearTicks(low, high, 2);
}

/**
 * Width of the widest number of an axis.
 *
 * @param axis - the axis
 * @returns width; px, 0 without numbers
 */
export function tickTextWidth(axis: Axis): number {
  return Math.max(0, ...axis.ticks.map((tick) => textWidth(tick.text ?? "", tickSize)));
}

/** Where a plot lies in its picture; px. */
export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/**
 * The horizontal axis: lines up through the plot, numbers below it, title at the right.
 *
 * @param axis - the axis, laid from box.left to box.right
 * @param box - the plot
 * @param theme - colours
 * @param note - what stands at the left of the title, from x = `noteLeft` on; px
 * @returns a group
 */
export function bottomAxis(
  axis: Axis,
  box: Box,
  theme: Theme,
  note: string | null,
  noteLeft: number,
): SvgNode {
  const taken = note === null ? 8 : noteLeft + textWidth(note, tickSize) + 12;
  const lines = axis.ticks.map(({ at, text }) =>
    svgNode("path", {
      d: segmentPath(at, box.top, at, box.bottom + (text === null ? 0 : 5)),
      ...line(theme, text),
    }),
  );
  const numbers = axis.ticks.flatMap(({ at, text }) =>
    text === null ? [] : [label(at, box.bottom + 18, text, tickSize, "middle", theme)],
  );
  return svgNode(
    "g",
    {},
    ...lines,
    stroked(segmentPath(box.left, box.bottom, box.right, box.bottom), theme.muted, 1),
    ...numbers,
    label(
      box.right,
      box.bottom + 36,
      fitText(axis.title, axisTitleSize, box.right - taken),
      axisTitleSize,
      "end",
      theme,
    ),
    ...(note === null ? [] : [label(noteLeft, box.bottom + 36, note, tickSize, "start", theme)]),
  );
}

/**
 * The vertical axis: lines across the plot, numbers at its left, title above it.
 *
 * @param axis - the axis, laid from box.bottom to box.top
 * @param box - the plot
 * @param theme - colours
 * @param titleLeft - left end of the title; px
 * @returns a group
 */
export function leftAxis(axis: Axis, box: Box, theme: Theme, titleLeft: number): SvgNode {
  const lines = axis.ticks.map(({ at, text }) =>
    svgNode("path", { d: segmentPath(box.left, at, box.right, at), ...line(theme, text) }),
  );
  const numbers = axis.ticks.flatMap(({ at, text }) =>
    text === null ? [] : [label(box.left - 8, at + 4, text, tickSize, "end", theme)],
  );
  return svgNode(
    "g",
    {},
    ...lines,
    ...numbers,
    label(
      titleLeft,
      box.top - 12,
      fitText(axis.title, axisTitleSize, box.right - titleLeft),
      axisTitleSize,
      "start",
      theme,
    ),
  );
}

const line = (theme: Theme, text: string | null) => ({
  stroke: theme.grid,
  "stroke-width": text === null ? 0.5 : 1,
});

const label = (
  x: number,
  y: number,
  text: string,
  size: number,
  anchor: "start" | "middle" | "end",
  theme: Theme,
): SvgNode => textNode([x, y], text, size, theme.muted, { "text-anchor": anchor });
