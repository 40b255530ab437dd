import type { SvgNode } from "../../src/view/chart/index.ts";
import { elementsOf } from "./read-xml.ts";

/** End points of the absolute moves and lines of a path, in order. */
export function pathPoints(node: SvgNode): [number, number][] {
  return [...node.attrs.d!.matchAll(/[ML]\s*(-?[\d.]+)[ ,](-?[\d.]+)/g)].map((match) => [
    Number(match[1]),
    Number(match[2]),
  ]);
}

/** Data of a picture: the paths inside its clipped group. */
export function dataPaths(picture: SvgNode): SvgNode[] {
  const group = elementsOf(picture, "g").find((node) => "clip-path" in node.attrs)!;
  return elementsOf(group, "path");
}
