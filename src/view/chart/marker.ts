import { roundCoordinate } from "./svg-node.ts";

/** Shape of the mark of a single point. */
export type MarkerShape = "circle" | "square" | "diamond" | "triangle" | "cross";

const outline: Readonly<Record<MarkerShape, (r: number) => string>> = {
  circle: (r) => `m${-r} 0a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0z`,
  square: (r) => `m${-r} ${-r}h${2 * r}v${2 * r}h${-2 * r}z`,
  diamond: (r) =>
    `m0 ${-1.3 * r}l${1.3 * r} ${1.3 * r}l${-1.3 * r} ${1.3 * r}l${-1.3 * r} ${-1.3 * r}z`,
  triangle: (r) => `m0 ${-1.2 * r}l${1.2 * r} ${2.1 * r}h${-2.4 * r}z`,
  cross: (r) => `m${-r} ${-r}l${2 * r} ${2 * r}m0 ${-2 * r}l${-2 * r} ${2 * r}`,
};

/**
 * The path of one marker, to be joined with others of its series into one `d` attribute.
 *
 * @param shape - its shape; all have about the same area, the cross is a stroke
 * @param x - centre; px
 * @param y - centre; px
 * @param r - half the width; px, > 0
 * @returns path data that begins with an absolute move
 */
export function markerPath(shape: MarkerShape, x: number, y: number, r: number): string {
  const relative = outline[shape](r).replace(
    /-?\d+\.\d{3,}/g,
    (text) => `${roundCoordinate(Number(text))}`,
  );
  return `M${roundCoordinate(x)} ${roundCoordinate(y)}${relative}`;
}
