import { logLogChart, quantityText, seriesStyle } from "../../../view/chart/index.ts";
import { humanDuration } from "../../../view/words/index.ts";
import type { Limit, Tasks } from "../../protocol.ts";
import { figure, msPerDay, size } from "../amounts.ts";
import { inputWords } from "../gate-words.ts";
import { gradeChoice } from "../grade.ts";
import type { LessonContext, Shown, Step } from "../step.ts";

const choices = ["yes, for ever", "no, somewhere it stops"];

/** Averaging has stopped where ten times the run narrows the interval by less than this. */
const stopped = 1.25;

const limits: Readonly<Record<Limit, string>> = {
  timebase: "the counter's time base",
  oscillator: "the wandering of the oscillator",
  temperature: "the temperature",
};

type Course = Tasks["averaging"]["answer"]["courses"][number];

/** Step 7: where averaging stops helping, and where it goes on. */
export function averagingStep({ scenario }: LessonContext): Step<"averaging"> {
  const what = inputWords(scenario);
  return {
    id: "averaging",
    title: "Where averaging stops",
    intro: `A longer run averages the noise of its edges away. What is left is what the oscillator and the counter's time base do by themselves.`,
    question: {
      kind: "choice",
      text: `Measure ${what} longer and longer. Does its rate in the long run become ever surer?`,
      choices,
    },
    controls: [],
    task: "averaging",
    ask: () => ({}),
    show: (answer) => show(answer, what),
  };
}

/** Stretches of lengths, as indices, over which a tenfold run hardly helps. */
function stopsOf(
  { width }: Course,
  perDecade: number,
): readonly (readonly [from: number, to: number])[] {
  const stops: [number, number][] = [];
  for (let i = 0; i + perDecade < width.length; i++) {
    if (!(width[i + perDecade]! > width[i]! / stopped)) continue;
    const last = stops.at(-1);
    if (last !== undefined && last[1] === i - 1) last[1] = i;
    else stops.push([i, i]);
  }
  return stops;
}

function show({ lengths, courses }: Tasks["averaging"]["answer"], what: string): Shown {
  const perDecade = Math.round(1 / Math.log10(lengths[1]! / lengths[0]!));
  const names: Readonly<Record<Course["of"], string>> = {
    clock: what,
    own: "the clock on its own oscillator",
    ideal: "nothing but noise of edges",
  };
  const lengthText = (i: number) => quantityText(lengths[i]!, "s", 1);
  const said = courses.map((course) => {
    const name =
      course.of === "ideal" ? "With nothing but noise of edges" : `With ${names[course.of]}`;
    const stops = stopsOf(course, perDecade).map(([from, to]) => {
      const cause = limits[course.limits[from]!];
      return to + perDecade === lengths.length - 1
        ? `it stops near ${lengthText(from)}, at ${size(course.width[from]!)}: ${cause} is left`
        : `from ${lengthText(from)} to ${lengthText(to + perDecade)} it hardly helps, for ${cause}`;
    });
    return `${name} ${stops.length === 0 ? "it goes on as far as the picture reaches" : stops.join("; ")}.`;
  });
  const end = stopsOf(courses[0]!, perDecade).at(-1);
  const isStopped = end !== undefined && end[1] + perDecade === lengths.length - 1;
  return {
    reading: null,
    pictures: [
      (options) =>
        logLogChart(
          {
            chart: "averaging",
            heading: "How well a run knows the rate in the long run",
            x: { quantity: "Length of the run", unit: "s" },
            y: { quantity: "Half-width at 95\u00a0%", unit: "ms/day" },
            curves: courses.map(({ of, width }, i) => ({
              name: names[of],
              x: lengths,
              y: width.map((value) => value * msPerDay),
              look: {
                style: seriesStyle(i),
                hasLine: true,
                hasMarkers: false,
                width: i === 0 ? 2.5 : 1.75,
              },
            })),
            guides: [],
            isSquare: false,
          },
          options,
        ),
    ],
    words: `${said.join(" ")} Averaging removes what is new in every reading, and nothing else.`,
    grade: (text) => gradeChoice(Number(text), choices, [isStopped ? 1 : 0]),
    table: {
      caption: "Half-width of the 95\u00a0% interval of the rate in the long run, line fit",
      head: ["Run", ...courses.map(({ of }) => `${names[of]} (ms/day)`)],
      rows: [...lengths.keys()]
        .filter((i) => i % perDecade === 0)
        .map((i) => [
          humanDuration(lengths[i]!),
          ...courses.map(({ width }) => (Number.isFinite(width[i]!) ? figure(width[i]!) : "–")),
        ]),
    },
  };
}
