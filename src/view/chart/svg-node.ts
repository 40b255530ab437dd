/** An SVG element as plain data: it can be inspected in a test, printed as text or made into a DOM element. */
export interface SvgNode {
  readonly tag: string;
  /** Attribute values are text already; numbers have been rounded. */
  readonly attrs: Readonly<Record<string, string>>;
  readonly children: readonly (SvgNode | string)[];
}

/**
 * Rounds a coordinate to two decimals: a hundredth of a pixel, and short text.
 *
 * @param value - coordinate or length; px, finite
 * @returns the rounded number; never -0
 * @throws RangeError if the value is not finite, since a renderer would silently drop the element
 *
 * Exact case: 1.005 gives 1, 2.675 gives 2.67 or 2.68 as the double lies, -0.001 gives 0.
 */
export function roundCoordinate(value: number): number {
  if (!Number.isFinite(value)) {
    throw new RangeError(`roundCoordinate: value must be finite, got ${value}`);
  }
  return Math.round(value * 100) / 100 + 0;
}

/**
 * Makes an SVG element.
 *
 * @param tag - name of the element
 * @param attrs - attributes; numbers are rounded to two decimals, undefined ones left out
 * @param children - elements and text, in order
 * @returns the element as plain data
 * @throws RangeError if a numeric attribute is not finite
 */
export function svgNode(
  tag: string,
  attrs: Readonly<Record<string, string | number | undefined>>,
  ...children: readonly (SvgNode | string)[]
): SvgNode {
  const texts: Record<string, string> = {};
  for (const [name, value] of Object.entries(attrs)) {
    if (value !== undefined) {
      texts[name] = typeof value === "number" ? `${roundCoordinate(value)}` : value;
    }
  }
  return { tag, attrs: texts, children };
}

/**
 * A line as it is drawn everywhere.
 *
 * @param d - path data
 * @param stroke - colour
 * @param width - px
 * @param more - dashes and other attributes; an empty text is left out
 */
export function stroked(
  d: string,
  stroke: string,
  width: number,
  more: Readonly<Record<string, string | number | undefined>> = {},
): SvgNode {
  const dash = more["stroke-dasharray"] || undefined;
  return svgNode("path", { d, stroke, "stroke-width": width, ...more, "stroke-dasharray": dash });
}

/**
 * A line of text.
 *
 * @param at - where it begins, is centred or ends, on its base line; px
 * @param size - of the font; px
 * @param fill - colour
 */
export function textNode(
  [x, y]: readonly [number, number],
  text: string,
  size: number,
  fill: string,
  more: {
    readonly "text-anchor"?: "start" | "middle" | "end";
    readonly "font-weight"?: number;
  } = {},
): SvgNode {
  return svgNode("text", { x, y, "font-size": size, ...more, fill }, text);
}
