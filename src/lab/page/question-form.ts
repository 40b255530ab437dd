import type { Question } from "../lesson/step.ts";
import { field, slider } from "./controls.ts";
import { button, element } from "./element.ts";
import { sketchPad } from "./sketch-pad.ts";

/**
 * The question of a step, to be answered before the result is shown.
 *
 * @param id - of the step
 * @param question - what is asked
 * @param answer - takes what was said, as it stands in the address; empty for nothing
 */
export function questionForm(
  id: string,
  question: Question,
  answer: (said: string) => void,
): HTMLFormElement {
  const { parts, said } = partsOf(id, question);
  return element(
    "form",
    {
      class: "prediction",
      onsubmit: (event) => {
        event.preventDefault();
        answer(said());
      },
    },
    element("fieldset", {}, element("legend", {}, question.text), ...parts),
    element(
      "div",
      { class: "buttons" },
      element("button", { type: "submit", class: "main" }, "Predict, and see"),
      button("Only show it", () => answer(""), { class: "quiet" }),
    ),
  );
}

function partsOf(
  id: string,
  question: Question,
): { readonly parts: readonly HTMLElement[]; readonly said: () => string } {
  if (question.kind === "choice") {
    const radios = question.choices.map((_, value) =>
      element("input", { type: "radio", name: `predict-${id}`, value }),
    );
    return {
      parts: radios.map((radio, i) =>
        element("label", { class: "choice" }, radio, question.choices[i]!),
      ),
      said: () => radios.find((radio) => radio.checked)?.value ?? "",
    };
  }
  if (question.kind === "sketch") return sketchPad(id, question);
  const { values, write } = question;
  let at = values.length >> 1;
  const { parts, show } = slider(
    `predict-${id}`,
    values.length,
    (i) => write(values[i]!),
    (i) => {
      at = i;
    },
  );
  show(at);
  return { parts: [field("Your guess", `predict-${id}`, ...parts)], said: () => `${values[at]!}` };
}
