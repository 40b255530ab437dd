import type { ShownTable } from "../lesson/step.ts";
import { element } from "./element.ts";

/**
 * A table that scrolls by itself where it is wider than the page.
 *
 * @param caption - says what it holds; shown where `isCaptioned`
 * @param head - of its columns
 * @param isCaptioned - whether the caption is to be seen
 */
export function scrollingTable(caption: string, head: readonly string[], isCaptioned = false) {
  const body = element("tbody");
  const heads = head.map((text) => element("th", { scope: "col" }, text));
  return {
    element: element(
      "div",
      { class: "scrolls", tabindex: 0, role: "region", "aria-label": caption },
      element(
        "table",
        {},
        ...(isCaptioned ? [element("caption", {}, element("span", {}, caption))] : []),
        element("thead", {}, element("tr", {}, ...heads)),
        body,
      ),
    ),
    /** Puts other rows in it; the first cell of each names it. */
    fill(rows: readonly (readonly string[])[]): void {
      body.replaceChildren(
        ...rows.map(([name = "", ...cells]) =>
          element(
            "tr",
            {},
            element("th", { scope: "row" }, name),
            ...cells.map((text) => element("td", {}, text)),
          ),
        ),
      );
    },
  };
}

/**
 * The numbers of a picture as a table, folded away.
 *
 * @param table - caption, head and rows
 * @param isOpen - whether it is unfolded
 */
export function numberTable({ caption, head, rows }: ShownTable, isOpen: boolean): HTMLElement {
  const { element: table, fill } = scrollingTable(caption, head, true);
  fill(rows);
  const summary = element("summary", {}, "The numbers");
  return element("details", { class: "numbers", open: isOpen }, summary, table);
}
