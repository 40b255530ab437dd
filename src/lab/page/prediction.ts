import { element } from "./element.ts";

/** A question to be answered before the result is shown. */
export interface Prediction {
  readonly element: HTMLElement;
  /** Index of the answer chosen; −1 for none. */
  readonly chosen: () => number;
}

/**
 * Makes the question of a step.
 *
 * @param id - of the step
 * @param question - its text
 * @param choices - answers to choose from
 * @param reveal - called when an answer is chosen, or the result wanted without one
 */
export function makePrediction(
  id: string,
  question: string,
  choices: readonly string[],
  reveal: () => void,
): Prediction {
  let chosen = -1;
  const radios = choices.map((choice, i) =>
    element(
      "label",
      { class: "choice" },
      element("input", {
        type: "radio",
        name: `predict-${id}`,
        value: i,
        onchange: () => {
          chosen = i;
        },
      }),
      choice,
    ),
  );
  const form = element(
    "form",
    {
      class: "prediction",
      onsubmit: (event) => {
        event.preventDefault();
        reveal();
      },
    },
    element("fieldset", {}, element("legend", {}, `Predict: ${question}`), ...radios),
    element("button", { type: "submit", class: "main" }, "Measure and see"),
  );
  return { element: form, chosen: () => chosen };
}

/**
 * What became of a prediction, in words.
 *
 * @param choices - answers there were
 * @param chosen - index of the one chosen; −1 for none
 * @param right - index of the right one; null where the settings are not those of the question
 * @returns a sentence, or nothing where there is nothing to say
 */
export function predictionWords(
  choices: readonly string[],
  chosen: number,
  right: number | null,
): string {
  if (right === null) return "";
  if (chosen < 0) return `The answer: ${choices[right]}.`;
  return chosen === right
    ? `As you predicted: ${choices[right]}.`
    : `You predicted “${choices[chosen]}”. The answer: ${choices[right]}.`;
}
