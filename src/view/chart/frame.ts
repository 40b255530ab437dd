import { commonRateUnit } from "../words/index.ts";
import type { AxisSpec } from "./axis.ts";
import { type ChartOptions, completeOptions } from "./chart-options.ts";
import { drawPanel, layPanel, type PanelSpec, sidesOf } from "./panel.ts";
import { panelHeading, pictureHeader, pictureRoot } from "./picture.ts";
import type { SvgNode } from "./svg-node.ts";

/** A chart of one panel, or of two above one another. */
export interface FrameSpec extends PanelSpec {
  /** What is shown, in a few words. */
  readonly heading: string;
  /** The same in full sentences, with the numbers, for those who cannot see it. */
  readonly description: string;
  /** A second panel below, with a heading of its own, its plot in line with the first. */
  readonly below?: PanelSpec & { readonly heading: string };
}

/**
 * A whole picture: paper, heading, axes with quantity and unit, data, and a name beside every series.
 *
 * @param spec - axes, data and names
 * @param options - title, size, colours; two panels share the height, each with 240 px at least
 * @returns an `svg` element with title and description for screen readers
 */
export function frame(spec: FrameSpec, options: ChartOptions): SvgNode {
  const { title, width, height, theme, idPrefix, paper } = completeOptions(options);
  const { below } = spec;
  const rateUnit = options.rateUnit ?? (below && unitOfBoth(spec.y, below.y));
  const header = pictureHeader(spec.heading, title, width, theme);
  const half = Math.max(240, height * (paper ? 0.51 : 0.6));
  const lay = (sides: { readonly left: number; readonly right: number }) => {
    const upper = layPanel(spec, {
      theme,
      idPrefix,
      width,
      rateUnit,
      top: header.height,
      height: below ? half - header.height : height - header.height,
      ...sides,
    });
    if (below === undefined) {
      return [{ panel: upper, heading: null }];
    }
    const heading = panelHeading(below.heading, upper.bottom + 4, width, theme);
    const place = {
      theme,
      idPrefix: `${idPrefix}-below`,
      width,
      rateUnit,
      top: heading.bottom,
    };
    const lower = layPanel(below, { ...place, height: half - 40, ...sides });
    return [
      { panel: upper, heading: null },
      { panel: lower, heading },
    ];
  };
  const alone = lay({ left: 0, right: 20 }).map(({ panel }) => sidesOf(panel));
  const panels = lay({
    left: Math.max(...alone.map((sides) => sides.left)),
    right: Math.max(...alone.map((sides) => sides.right)),
  });
  return pictureRoot(
    { ...spec, title, idPrefix, width, height: panels.at(-1)!.panel.bottom, theme, paper },
    ...header.nodes,
    ...panels.flatMap(({ panel, heading }) => [...(heading?.nodes ?? []), ...drawPanel(panel)]),
  );
}

/** One unit of rate for two panels; none where they show no rate. */
function unitOfBoth(upper: AxisSpec, lower: AxisSpec): string | undefined {
  const largest = [upper, lower].map(({ domain }) => Math.max(...domain.map(Math.abs)));
  return upper.unit === "rate" ? commonRateUnit(largest).name : undefined;
}
