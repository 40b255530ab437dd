import type { ChartOptions, SvgNode } from "../../view/chart/index.ts";
import { darkTheme, lightTheme, toElement } from "../../view/chart/index.ts";
import { element } from "./element.ts";

/** Widest and narrowest picture; px. */
const [widest, narrowest] = [800, 280];

/** Pictures that are drawn anew where the page's width or its light changes; printed they are light. */
export class Figures {
  readonly element = element("div", { class: "figures" });
  private pictures: readonly ((options: ChartOptions) => SvgNode)[] = [];
  private width = 0;
  private readonly isDark = matchMedia("(prefers-color-scheme: dark)");
  private readonly isPrinted = matchMedia("print");
  private readonly idPrefix: string;

  /** @param idPrefix - makes ids unique on the page: letters and digits */
  constructor(idPrefix: string) {
    this.idPrefix = idPrefix;
    for (const medium of [this.isDark, this.isPrinted]) {
      medium.addEventListener("change", () => this.draw());
    }
    new ResizeObserver(() => {
      if (this.fittingWidth() !== this.width) this.draw();
    }).observe(this.element);
  }

  /** Shows other pictures. */
  show(pictures: readonly ((options: ChartOptions) => SvgNode)[]): void {
    this.pictures = pictures;
    this.draw();
  }

  private draw(): void {
    this.width = this.fittingWidth();
    const { width } = this;
    const onScreen = this.isDark.matches ? darkTheme : lightTheme;
    const theme = this.isPrinted.matches ? { ...lightTheme, paper: "#ffffff" } : onScreen;
    const height = Math.round(Math.max(260, Math.min(400, width * 0.54)));
    const drawn = this.pictures.map((picture, i) => {
      const idPrefix = `${this.idPrefix}-${i}`;
      const options = { title: "", idPrefix, width, height, theme };
      return element("figure", {}, toElement(picture(options), document));
    });
    this.element.replaceChildren(...drawn);
  }

  private fittingWidth(): number {
    return Math.max(narrowest, Math.min(widest, Math.floor(this.element.clientWidth)));
  }
}
