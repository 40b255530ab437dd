import { parseAccuracy } from "../../../planning/index.ts";
import { fixedText, planChart } from "../../../view/chart/index.ts";
import { humanDuration } from "../../../view/words/index.ts";
import type { PlannedWay, Tasks } from "../../protocol.ts";
import { inputWords } from "../gate-words.ts";
import { classOf } from "../nearest-choice.ts";
import { perDay } from "../per-day.ts";
import type { LessonContext, Shown, Step } from "../step.ts";

/** Limits between the predictions; s. */
const limits = [60, 3600, 86400, 30 * 86400];

/** Step 5: how long it must last. */
export function howLongStep({ scenario }: LessonContext): Step<"plan"> {
  const what = inputWords(scenario);
  return {
    id: "long",
    title: "How long must it last",
    intro: `Say how well you want to know the rate of ${what}. From the noise of all stages it follows how long each way of measuring takes. Then run one of them and see whether it holds.`,
    question: `How long does the quickest way of measuring ${what} take, for this accuracy?`,
    choices: [
      "less than a minute",
      "a minute to an hour",
      "an hour to a day",
      "a day to a month",
      "longer, or no run is long enough",
    ],
    controls: [
      {
        kind: "accuracy",
        key: "within",
        label: "Accuracy",
        hint: "as a fraction or as time: 1e-7, 0.5 ppm, 10 ms/day, 1 s/month",
      },
    ],
    controlsFirst: true,
    task: "plan",
    ask: ({ within }) => ({ within: parseAccuracy(within) }),
    show: (answer, { within }) => show(answer, parseAccuracy(within), what),
  };
}

function show({ ways, bound }: Tasks["plan"]["answer"], within: number, what: string): Shown {
  const here = ways.filter((way) => way.looksAtClock);
  const reachable = here.filter((way) => way.limitedBy === null);
  const quickest = reachable.toSorted((a, b) => a.length - b.length)[0];
  const slowest = reachable.toSorted((a, b) => b.length - a.length)[0];
  const goal = `To know the rate of ${what} within ${perDay(within)}, at 95\u00a0%,`;
  const words =
    quickest === undefined || slowest === undefined
      ? `${goal} no run is long enough: ${here[0]!.limitedBy}.`
      : `${goal} the quickest way, ${quickest.description}, must last ${humanDuration(quickest.length)}${slowest === quickest ? "" : `; the slowest, ${slowest.description}, ${humanDuration(slowest.length)}`}.`;
  const systematic =
    bound > 0 ? ` Of the accuracy, ${perDay(bound)} is taken by what no averaging removes.` : "";
  return {
    reading: null,
    pictures: [
      (options) =>
        planChart(
          {
            // Rounded for its name: the line is as thick as the difference.
            goal: Number(within.toPrecision(3)),
            quantity: "Half-width of the 95 % interval",
            strategies: ways
              .filter((way) => way.widths.some((width) => width > 0))
              .map((way) => ({
                name: way.description,
                length: way.lengths,
                uncertainty: way.widths,
                reaches: way.limitedBy === null ? way.length : null,
                when: runText(way),
              })),
          },
          options,
        ),
    ],
    words: `${words}${systematic}`,
    right: classOf(quickest?.length ?? Number.NaN, limits),
    table: {
      isOpen: true,
      caption: `Run lengths for an accuracy of ${perDay(within)}`,
      head: ["Way of measuring", "Run", "Readings", "What stands in the way"],
      rows: ways.map((way) => [
        way.description,
        runText(way),
        way.limitedBy === null ? fixedText(way.readings, 0) : "–",
        way.limitedBy ?? "nothing",
      ]),
    },
  };
}

const runText = ({ limitedBy, length }: Tasks["plan"]["answer"]["ways"][number]) =>
  limitedBy === null ? humanDuration(length) : "never";

/** Readings that a page can be asked to take. */
const mostReadings = 20_000;

/**
 * Why a way of measuring cannot be tried on the page.
 *
 * @param way - as planned
 * @returns words, or null where it can
 */
export function trialObstacle(way: PlannedWay): string | null {
  if (way.limitedBy !== null) return way.limitedBy;
  return way.readings > mostReadings
    ? `takes ${fixedText(way.readings, 0)} readings, more than this page runs; the command line does`
    : null;
}

/**
 * A trial run in words.
 *
 * @param trial - what came out
 * @param within - accuracy asked for; dimensionless
 * @param tally - trials that held, and all
 */
export function trialWords(
  trial: Tasks["trial"]["answer"],
  within: number,
  tally: { readonly held: number; readonly all: number },
): string {
  const { estimate, length, readings, isWithin } = trial;
  const error = perDay(estimate.rate - estimate.truth);
  const held = isWithin
    ? `It held: the rate found is off by ${error}, within the ${perDay(within)} asked for.`
    : `It did not hold: the rate found is off by ${error}, more than the ${perDay(within)} asked for. One run in twenty may.`;
  const count = readings === 1 ? "1 reading" : `${fixedText(readings, 0)} readings`;
  return `A run of ${humanDuration(length)}, ${count}. ${held} So far ${tally.held} of ${tally.all} ${tally.all === 1 ? "run" : "runs"} held.`;
}
