import { quantityText, timeErrorChart } from "../../../view/chart/index.ts";
import { humanDuration } from "../../../view/words/index.ts";
import type { Tasks } from "../../protocol.ts";
import { gradeChoice } from "../grade.ts";
import type { LessonContext, Shown, Step } from "../step.ts";

/** How long the drive can be lost; s. */
const lossLengths = ["0.5", "1", "2", "5", "10", "30", "60", "120", "300"];

const choices = [
  "the right time again, to within half a tick",
  "it is behind by more than that",
  "it is ahead by more than that",
];

/** A dial displaced by so much of half a tick is neither right nor clearly wrong. */
const [surelyRight, surelyWrong] = [1 / 1.5, 1.5];

/** Beside the steps: the drive is cut, the clock falls back on its own oscillator, and returns. */
export function driveLostStep({ scenario }: LessonContext): Step<"loss"> {
  const { fallback } = scenario.clock;
  const own =
    fallback === null
      ? "This clock has no oscillator of its own: without bursts it stands still."
      : `After ${humanDuration(fallback.after)} without a step its own oscillator takes over; the first good burst ends that.`;
  return {
    id: "loss",
    title: "When the drive is lost",
    intro: `Cut the drive and watch the clock. ${own}`,
    question: { kind: "choice", text: "When the drive is back, what does the dial show?", choices },
    controls: [
      {
        kind: "range",
        key: "lost",
        label: "The drive is gone for",
        values: lossLengths,
        text: (seconds) => humanDuration(Number(seconds)),
      },
    ],
    task: "loss",
    ask: ({ seed, lost }) => ({ seed, lasts: Number(lost) }),
    show: (answer, { lost }) => show(answer, Number(lost), 1 / scenario.clock.tickHz),
  };
}

function show(answer: Tasks["loss"]["answer"], lasts: number, period: number): Shown {
  const { time, timeError, fallback, ticksOfFallback, displaced, lostAt } = answer;
  const spans = fallback.map(({ from, to }) => `from ${seconds(from)} to ${seconds(to)}`);
  const course =
    ticksOfFallback === 0
      ? "Its own oscillator makes no tick."
      : `Its own oscillator makes ${ticksOfFallback} ${ticksOfFallback === 1 ? "tick" : "ticks"}, ${spans.join(", ")}.`;
  const size = quantityText(Math.abs(displaced), "s", 3);
  const end =
    Math.abs(displaced) < 1e-9
      ? "In the end the dial is where it would have been."
      : `In the end the dial is ${size} ${displaced < 0 ? "behind" : "ahead of"} where the drive would have brought it, and stays so.`;
  return {
    reading: null,
    pictures: [
      (options) =>
        timeErrorChart(
          {
            time,
            timeError,
            fit: null,
            slips: [],
            fallback: [{ from: lostAt, to: lostAt + lasts }],
          },
          options,
        ),
    ],
    words: `The drive goes at ${seconds(lostAt)} and is back ${humanDuration(lasts)} later. ${course} ${end}${answer.isRace ? " Its last tick and the first burst come at nearly the same moment: another run may end a tick otherwise." : ""}`,
    grade: (said) =>
      gradeChoice(Number(said), choices, rightOf(displaced / (period / 2), answer.isRace)),
    table: {
      caption: "Ticks around the loss",
      head: ["Time (s)", "Time error (s)"],
      rows: [...time.keys()]
        .filter((i) => time[i]! > lostAt - 3 * period && time[i]! < lostAt + lasts + 3 * period)
        .slice(0, 40)
        .map((i) => [time[i]!.toFixed(3), timeError[i]!.toFixed(6)]),
    },
  };
}

/** Which answers are right for a dial displaced by so many halves of a tick. */
function rightOf(halves: number, isRace: boolean): readonly number[] {
  const away = halves > 0 ? 2 : 1;
  if (isRace) return [0, away];
  if (Math.abs(halves) < surelyRight) return [0];
  return Math.abs(halves) > surelyWrong ? [away] : [0, away];
}

const seconds = (value: number) => `${value.toFixed(1)} s`;
