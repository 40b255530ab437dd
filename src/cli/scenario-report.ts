import type { NamedPicture, Report } from "../view/report/index.ts";
import type { LoadedScenario } from "./load-scenario.ts";
import { partsOf } from "./style.ts";

/**
 * The report of what follows from a scenario: the answer, how it was found, all numbers as the command prints them.
 *
 * @param where - the scenario as it was named
 * @param print - makes the printed text, whose first paragraph is the title and the answer
 * @param method - how it was found
 */
export function scenarioReport(
  { scenario, warnings, sha256 }: LoadedScenario,
  where: string,
  print: () => string,
  pictures: readonly NamedPicture["node"][],
  method: readonly string[],
): Omit<Report, "command" | "version" | "created"> {
  const { title } = scenario;
  const [first = [], ...details] = partsOf(print);
  const answer = first.flatMap((part) =>
    "lines" in part ? part.lines : "text" in part ? [part.text] : [],
  );
  return {
    title,
    answer: answer[0] === title ? answer.slice(1) : answer,
    pictures,
    facts: [
      ["How it was found", method],
      [
        "What was assumed",
        [
          "The chain is as the scenario says, with what the command below changes in it.",
          ...warnings.map(({ message }) => `${message}.`),
        ],
      ],
      [
        "What is not known",
        ["What the scenario leaves out. Readings, judged, tell the noise that there is."],
      ],
    ],
    details,
    inputs: [{ file: where, sha256 }],
  };
}
