import type { ShownTable } from "../lesson/step.ts";
import { element } from "./element.ts";

/**
 * The numbers of a picture as a table, folded away.
 *
 * @param table - caption, head and rows
 * @param isOpen - whether it is unfolded
 */
export function numberTable(table: ShownTable, isOpen: boolean): HTMLElement {
  const { caption, head, rows } = table;
  const cells = (row: readonly string[]) =>
    row.map((text, i) =>
      i === 0 ? element("th", { scope: "row" }, text) : element("td", {}, text),
    );
  return element(
    "details",
    { class: "numbers", open: isOpen },
    element("summary", {}, "The numbers"),
    element(
      "div",
      { class: "scrolls", tabindex: 0, role: "region", "aria-label": caption },
      element(
        "table",
        {},
        element("caption", {}, element("span", {}, caption)),
        element(
          "thead",
          {},
          element("tr", {}, ...head.map((text) => element("th", { scope: "col" }, text))),
        ),
        element("tbody", {}, ...rows.map((row) => element("tr", {}, ...cells(row)))),
      ),
    ),
  );
}
