import type { Step } from "../lesson/step.ts";
import { element } from "./element.ts";

/**
 * What is printed: the questions of all steps with room for answers, the seed, and the address that shows the same.
 *
 * @param title - of the scenario
 * @param steps - of the lesson
 */
export function worksheet(title: string, steps: readonly Step[]) {
  const about = element("p", { class: "sheet-about" });
  const asks = steps.map(({ title: name, question }) =>
    element(
      "li",
      {},
      element("h3", {}, name),
      element("p", {}, question.text),
      ...(question.kind === "choice"
        ? [
            element(
              "ul",
              { class: "sheet-choices" },
              ...question.choices.map((choice) => element("li", {}, choice)),
            ),
          ]
        : []),
      element("p", { class: "sheet-lines" }, "I predict"),
      element("p", { class: "sheet-lines" }, "I found"),
      element("p", { class: "sheet-lines" }, "Why"),
    ),
  );
  return {
    element: element(
      "section",
      { class: "worksheet", "aria-label": "Worksheet" },
      element("h2", {}, `Worksheet: ${title}`),
      element("p", { class: "sheet-lines" }, "Name, class, date"),
      about,
      element("ol", {}, ...asks),
    ),
    update(seed: string): void {
      about.textContent = `Seed: ${seed}. ${location.href}`;
    },
  };
}
