import { parseAccuracy } from "../../../planning/index.ts";
import { fixedText, logLogChart, seriesStyle } from "../../../view/chart/index.ts";
import { humanDuration } from "../../../view/words/index.ts";
import type { PlannedWay, Tasks } from "../../protocol.ts";
import { msPerDay, size } from "../amounts.ts";
import { inputWords } from "../gate-words.ts";
import { gradeAmount } from "../grade.ts";
import type { LessonContext, Shown, Step } from "../step.ts";

/** Lengths that can be predicted; s. The last stands for never. */
const never = 1e12;
const lengths = [
  1,
  10,
  60,
  600,
  3600,
  4 * 3600,
  86400,
  7 * 86400,
  30 * 86400,
  365 * 86400,
  3650 * 86400,
  never,
];
const lengthText = (length: number) =>
  length >= never ? "no run is long enough" : humanDuration(length);

/** Step 8: how long it must last. */
export function howLongStep({ scenario }: LessonContext): Step<"plan"> {
  const what = inputWords(scenario);
  return {
    id: "long",
    title: "How long it takes",
    intro: `Say how well you want to know the rate of ${what} in the long run. From the noise of all stages, the temperature and the time base it follows how long each way of measuring takes.`,
    question: {
      kind: "amount",
      text: `How long must the quickest way of measuring ${what} last, for this accuracy?`,
      values: lengths,
      write: lengthText,
    },
    controls: [
      {
        kind: "accuracy",
        key: "within",
        label: "Accuracy",
        hint: "as time or as a fraction: 10 ms/day, 1 s/month, 0.5 ppm, 1e-7",
      },
    ],
    controlsFirst: true,
    task: "plan",
    ask: ({ within }) => ({ within: parseAccuracy(within) }),
    show: (answer, { within }) => show(answer, parseAccuracy(within), what),
  };
}

const runText = (length: number) => (length > 0 ? humanDuration(length) : "never");

/** The quickest of some ways, by a length of theirs. */
const quickestOf = (ways: readonly PlannedWay[], lengthOf: (way: PlannedWay) => number) =>
  ways.filter((way) => lengthOf(way) > 0).toSorted((a, b) => lengthOf(a) - lengthOf(b))[0];

function show(
  { ways, bound, swing }: Tasks["plan"]["answer"],
  within: number,
  what: string,
): Shown {
  const here = ways.filter((way) => way.looksAtClock);
  const quickest = quickestOf(here, (way) => way.longRun);
  const overRun = quickestOf(here, (way) => way.overRun);
  const goal = `To know the rate of ${what} in the long run within ${size(within)}, at 95\u00a0%,`;
  const long =
    quickest === undefined
      ? `${goal} no run is long enough: ${obstacleWords(here[0]!)}.`
      : `${goal} the quickest way, ${quickest.description}, must last ${runText(quickest.longRun)}.`;
  const short =
    overRun === undefined || overRun.overRun === quickest?.longRun
      ? ""
      : ` The rate over the run itself is known so well after ${runText(overRun.overRun)}, but it is not the one that the clock will keep.`;
  const systematic =
    bound > 0 ? ` ${size(bound)} are taken by the time base, which no averaging removes.` : "";
  const heat =
    swing > within ? ` A day's temperature alone carries the rate by up to ${size(swing)}.` : "";
  return {
    reading: null,
    pictures: [
      (options) =>
        logLogChart(
          {
            chart: "howLong",
            heading: "How well each way knows the rate in the long run",
            x: { quantity: "Length of the run", unit: "s" },
            y: { quantity: "Half-width at 95\u00a0%", unit: "ms/day" },
            curves: ways
              .filter((way) => way.widths.some((width) => width > 0))
              .map((way, i) => ({
                name: way.description,
                x: way.lengths,
                y: way.widths.map((width) => width * msPerDay),
                look: { style: seriesStyle(i), hasLine: true, hasMarkers: false },
              })),
            guides: [
              {
                name: `goal, ${size(within)}`,
                slope: 0,
                at: 60,
                level: within * msPerDay,
                from: 60,
                to: 1e9,
              },
            ],
            isSquare: false,
          },
          options,
        ),
    ],
    words: `${long}${short}${systematic}${heat}`,
    grade: (said) => gradeAmount(Number(said), quickest?.longRun ?? never, lengthText),
    table: {
      isOpen: true,
      caption: `Run lengths for an accuracy of ${size(within)}`,
      head: ["Way of measuring", "Rate over the run", "Rate in the long run", "Readings"],
      rows: ways.map((way) => [
        way.description,
        runText(way.overRun),
        way.limitedBy === null ? runText(way.longRun) : `never: ${obstacleWords(way)}`,
        way.limitedBy === null ? fixedText(way.readings, 0) : "–",
      ]),
    },
  };
}

/** What stands in the way, without the keys of a scenario's file and in the unit of the page. */
function obstacleWords({ limitedBy }: PlannedWay): string {
  return limitedBy!
    .replace(/ \([a-z_.]+\)$/, "")
    .replace(/(-?\d[\d.]*(?:e[-+]?\d+)?)$/, (number) => size(Number(number)));
}

/** Readings that a page can be asked to take. */
const mostReadings = 20_000;

/**
 * Why a way of measuring cannot be tried on the page.
 *
 * @param way - as planned
 * @returns a sentence, or null where it can
 */
export function trialObstacle(way: PlannedWay): string | null {
  if (way.limitedBy !== null) return `No trial: ${obstacleWords(way)}.`;
  return way.readings > mostReadings
    ? `No trial: it takes ${fixedText(way.readings, 0)} readings, more than this page runs; the command line does.`
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
  { rate, longRun, length, readings }: Tasks["trial"]["answer"],
  within: number,
  tally: { readonly held: number; readonly all: number },
): string {
  const error = size(rate - longRun);
  const held =
    Math.abs(rate - longRun) <= within
      ? `It held: the rate found is off the long run's by ${error}, within the ${size(within)} asked for.`
      : `It did not hold: the rate found is off the long run's by ${error}, more than the ${size(within)} asked for. One run in twenty may.`;
  const count = readings === 1 ? "1 reading" : `${fixedText(readings, 0)} readings`;
  return `A run of ${humanDuration(length)}, ${count}. ${held} So far ${tally.held} of ${tally.all} ${tally.all === 1 ? "run" : "runs"} held.`;
}
