import { quantityText } from "../../../view/chart/index.ts";
import type { Tasks } from "../../protocol.ts";
import { inputWords } from "../gate-words.ts";
import { gradeChoice } from "../grade.ts";
import type { LessonContext, Shown, Step } from "../step.ts";

const choices = ["yes, it carries its lateness on", "no, the next one knows nothing of it"];

/** What a tick passes on, over what is its own, from which on it shows. */
const shows = 1.5;

/** Step 1: the chain in motion. A late tick does not make the next one late. */
export function chainStep({ scenario }: LessonContext): Step<"ticks"> {
  const isDriven = scenario.drive !== null && scenario.counter.input === "clock";
  return {
    id: "chain",
    title: "One tick",
    intro: isDriven
      ? "A burst of a tone fills a receiver. When the charge reaches the threshold the clock ticks, and the counter stamps the tick. It never takes quite as long as before."
      : `The counter stamps an edge of ${inputWords(scenario)}. It never comes quite when the even grid says.`,
    question: {
      kind: "choice",
      text: "A tick comes late. Will the next be late because of it?",
      choices,
    },
    controls: [],
    play: "motion",
    task: "ticks",
    ask: ({ seed }) => ({ seed, count: 100 }),
    show: (answer) => show(answer, isDriven),
  };
}

function show(
  { late, carried, edgeRms, period }: Tasks["ticks"]["answer"],
  isDriven: boolean,
): Shown {
  const right = carried > shows ? [0] : carried * shows < 1 ? [1] : [0, 1];
  const cause = isDriven
    ? "Each burst starts from the standard, not from the tick before."
    : right.includes(0)
      ? "The oscillator starts each period where the one before ended, and what it wanders stays."
      : "The noise of an edge is its own: the oscillator behind it goes on as if nothing had been.";
  return {
    reading: null,
    pictures: [],
    words: `${cause} One edge is early or late by ${quantityText(edgeRms, "s", 2)} rms, in a period of ${quantityText(period, "s", 6)}.`,
    grade: (said) => gradeChoice(Number(said), choices, right),
    table: {
      caption: "The first ticks against an even grid from tick 0, as the counter stamps them",
      head: ["Tick", "Late by"],
      rows: [...late.slice(0, 21)].map((value, i) => [`${i}`, quantityText(value, "s", 3)]),
    },
  };
}
