import { quantityText } from "../../../view/chart/index.ts";
import type { Tasks } from "../../protocol.ts";
import { lastTick } from "../gates-text.ts";
import { gradeChoice } from "../grade.ts";
import type { LessonContext, Shown, Step } from "../step.ts";

const choices = ["it counts twice", "it counts once", "it cancels"];

/** Step 4: gates on a row of ticks, to be dragged. */
export function gatesStep(_context: LessonContext): Step<"ticks"> {
  return {
    id: "gates",
    title: "Gates on ticks",
    intro:
      "Each gate measures from one tick to another. Drag the ends, or choose one and move it with the arrow keys. Let gates touch, pull them apart, leave a hole, and watch three ways to make one rate of them.",
    question: {
      kind: "choice",
      text: "Gates A and B touch: they share a tick. What does the lateness of that tick do to the mean of the two?",
      choices,
    },
    controls: [],
    play: "timeline",
    task: "ticks",
    ask: ({ seed }) => ({ seed, count: lastTick }),
    show,
  };
}

function show({ late, edgeRms }: Tasks["ticks"]["answer"]): Shown {
  return {
    reading: null,
    pictures: [],
    words:
      "What A gains by a late tick B loses. Of gates that touch only the first and the last tick count, so their mean is the same as end to end. Pulled apart, each brings two ticks of its own. The line uses all of them, each by its place.",
    grade: (said) => gradeChoice(Number(said), choices, [2]),
    table: {
      caption: `The ticks against an even grid from tick 0; one scatters by ${quantityText(edgeRms, "s", 2)}`,
      head: ["Tick", "Late by"],
      rows: [...late].map((value, i) => [`${i}`, quantityText(value, "s", 3)]),
    },
  };
}
