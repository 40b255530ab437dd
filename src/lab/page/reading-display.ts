import { quantityText } from "../../view/chart/index.ts";
import { readingDigits } from "../lesson/reading-digits.ts";
import type { ShownReading } from "../lesson/step.ts";
import { element } from "./element.ts";

/**
 * A reading with the digits that mean something bold and underlined, and the rest plain.
 *
 * @param reading - what the counter shows
 */
export function readingDisplay(reading: ShownReading): HTMLElement {
  const { label, value, uncertainty, decimals, unit } = reading;
  const { sure, unsure, count } = readingDigits(value, uncertainty, decimals);
  const meaning =
    sure === ""
      ? "No digit of it says anything about the rate."
      : `The ${count === 1 ? "digit" : `${count} digits`} in bold, underlined, ${count === 1 ? "means" : "mean"} something: the standard uncertainty is ${quantityText(uncertainty, unit, 2)}. The rest is chance.`;
  return element(
    "p",
    { class: "reading" },
    element("span", { class: "reading-label" }, label),
    " ",
    element(
      "span",
      { class: "reading-value" },
      element("strong", { class: "sure" }, sure),
      element("span", { class: "unsure" }, unsure),
      ` ${unit}`,
    ),
    " ",
    element("span", { class: "reading-note" }, meaning),
  );
}
