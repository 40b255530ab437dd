import type { ChartOptions } from "./chart-options.ts";
import { margin } from "./panel.ts";
import { type SvgNode, svgNode, textNode } from "./svg-node.ts";
import { wrapText } from "./text-width.ts";
import type { Theme } from "./theme.ts";

/** What every picture has, whatever it shows. */
export interface PictureSpec {
  readonly heading: string;
  readonly description: string;
  readonly title: string;
  readonly idPrefix: string;
  readonly width: number;
  readonly height: number;
  readonly theme: Theme;
  readonly paper?: ChartOptions["paper"];
}

/** How much wider semi-bold text is drawn. */
const boldness = 1.08;

/**
 * The `svg` element of a picture: its paper, and its title and description for screen readers.
 *
 * It needs no style sheet, font or file, and paints its own paper, so it looks the same on a light page, on
 * a dark one, in print and by itself.
 *
 * @param spec - words, size and colours
 * @param children - what is drawn
 * @returns the whole picture
 */
export function pictureRoot(spec: PictureSpec, ...children: readonly SvgNode[]): SvgNode {
  const { heading, description, title, idPrefix, width, height, theme, paper } = spec;
  return svgNode(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      width: paper?.width ?? width,
      height: paper?.height ?? height,
      viewBox: `0 0 ${Math.round(width * 100) / 100} ${Math.round(height * 100) / 100}`,
      role: "img",
      "aria-labelledby": `${idPrefix}-title ${idPrefix}-desc`,
      "font-family": "system-ui, sans-serif",
    },
    svgNode("title", { id: `${idPrefix}-title` }, title === "" ? heading : `${heading}: ${title}`),
    svgNode("desc", { id: `${idPrefix}-desc` }, description),
    svgNode("rect", { width, height, fill: theme.paper }),
    ...children,
  );
}

/**
 * Heading and title of a picture, broken and cut to its width.
 *
 * @param heading - what is shown
 * @param title - the user's words; any text
 * @param width - width of the picture; px
 * @param theme - colours
 * @returns elements, and the height they take; px
 */
export function pictureHeader(
  heading: string,
  title: string,
  width: number,
  theme: Theme,
): { readonly nodes: readonly SvgNode[]; readonly height: number } {
  const room = width - 2 * margin;
  const lines = wrapText(heading, 15 * boldness, room, 2);
  const nodes = [
    ...lines.map((line, k) =>
      textNode([margin, 26 + 19 * k], line, 15, theme.ink, { "font-weight": 600 }),
    ),
  ];
  const y = 26 + 19 * lines.length;
  const subtitles = wrapText(title, 12, room, width < 560 ? 2 : 1).filter((line) => line !== "");
  for (const [k, line] of subtitles.entries()) {
    nodes.push(textNode([margin, y - 1 + 15 * k], line, 12, theme.muted));
  }
  return { nodes, height: y - 7 + 15 * subtitles.length };
}

/**
 * Heading of a second panel.
 *
 * @param heading - what it shows
 * @param top - upper end; px
 * @param width - width of the picture; px
 * @param theme - colours
 * @returns elements, and their lower end; px
 */
export function panelHeading(
  heading: string,
  top: number,
  width: number,
  theme: Theme,
): { readonly nodes: readonly SvgNode[]; readonly bottom: number } {
  const lines = wrapText(heading, 13 * boldness, width - 2 * margin, 2);
  const nodes = lines.map((line, k) =>
    textNode([margin, top + 14 + 17 * k], line, 13, theme.ink, { "font-weight": 600 }),
  );
  return { nodes, bottom: top + 4 + 17 * lines.length };
}
