import { quantityText } from "../../view/chart/index.ts";
import { readingDigits } from "../lesson/reading-digits.ts";
import type { ShownReading } from "../lesson/step.ts";
import { element } from "./element.ts";

/**
 * A reading as the counter displays it, and rounded to what it says.
 *
 * @param reading - what the counter shows
 */
export function readingDisplay(reading: ShownReading): HTMLElement {
  const { label, value, uncertainty, decimals, unit } = reading;
  const { shown, meant } = readingDigits(value, uncertainty, decimals);
  return element(
    "p",
    { class: "reading" },
    element("span", { class: "reading-label" }, label),
    element("span", { class: "reading-value" }, `${shown} ${unit}`),
    ...(meant === ""
      ? [element("span", { class: "reading-note" }, "No digit of it says anything about the rate.")]
      : [
          element("span", { class: "reading-note" }, "of which means something: "),
          element("strong", { class: "sure" }, `${meant} ${unit}`),
          element(
            "span",
            { class: "reading-note" },
            ` (standard uncertainty ${quantityText(uncertainty, unit, 2)})`,
          ),
        ]),
  );
}
