import { estimatorNames } from "../../../view/words/index.ts";
import type { RunIntervals, Tasks } from "../../protocol.ts";
import { figure, times } from "../amounts.ts";
import { gateWords } from "../gate-words.ts";
import { gradeChoice } from "../grade.ts";
import { intervalsChart } from "../intervals-chart.ts";
import type { Settings } from "../settings.ts";
import type { LessonContext, Shown, Step } from "../step.ts";

const choices = ["none", "about five", "about a third", "nearly all"];

const names: Readonly<Record<RunIntervals["of"], string>> = {
  ...estimatorNames,
  naive: "mean of readings with s/√K",
};

/** Step 6: the same measurement a hundred times. */
export function hundredRunsStep({ scenario }: LessonContext): Step<"hundred"> {
  const words = (units: string) => gateWords(scenario, Number(units));
  return {
    id: "hundred",
    title: "A hundred runs",
    intro:
      "One run gives one interval, and nobody can see whether it holds. A hundred runs show what 95\u00a0% means, and what becomes of the scatter over √K that books of statistics give.",
    question: {
      kind: "choice",
      text: "A hundred runs, each with an interval at 95\u00a0% for the rate over that run. How many miss it?",
      choices,
    },
    controls: [
      {
        kind: "select",
        key: "of",
        label: "Estimate",
        values: Object.keys(names),
        text: (of) => names[of as RunIntervals["of"]],
      },
      {
        kind: "select",
        key: "about",
        label: "Held against",
        values: ["run", "long"],
        text: (about) =>
          about === "run" ? "the rate over its own run" : "the rate in the long run",
      },
      { kind: "select", key: "units", label: "Gate", values: ["1", "10", "50"], text: words },
      {
        kind: "select",
        key: "count",
        label: "Gates K",
        values: ["10", "20", "40"],
        text: (count) => count,
      },
      {
        kind: "select",
        key: "dead",
        label: "Between gates",
        values: ["no", "yes"],
        text: (dead) =>
          dead === "yes" ? "dead time: the counter rearms" : "nothing: back to back",
      },
    ],
    task: "hundred",
    ask: ({ seed, units, count, dead }) => ({
      seed,
      units: Number(units),
      readings: Number(count),
      hasDeadTime: dead === "yes",
    }),
    show: (answer, settings) => show(answer, settings),
  };
}

/** Errors and half-widths of the intervals that there are, and how many miss. */
export function heldAgainst({ rate, half, truth }: RunIntervals, longRun: number | null) {
  const known = [...rate.keys()].filter((i) => half[i]! >= 0);
  const error = Float64Array.from(known, (i) => rate[i]! - (longRun ?? truth[i]!));
  const width = Float64Array.from(known, (i) => half[i]!);
  const missed = error.filter((value, i) => Math.abs(value) > width[i]!).length;
  return { error, width, missed, count: known.length };
}

const rms = (values: Float64Array) =>
  Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
const middle = (values: Float64Array) => values.slice().sort()[values.length >> 1] ?? Number.NaN;

function show({ intervals, longRun }: Tasks["hundred"]["answer"], { of, about }: Settings): Shown {
  const against = about === "long" ? longRun : null;
  const found = intervals.map((one) => ({ of: one.of, ...heldAgainst(one, against) }));
  const chosen = found.find((one) => one.of === of)!;
  const naive = found.find((one) => one.of === "naive")!;
  // Wide enough for most intervals of the three estimates, so that they can be compared; s/√K may leave the picture.
  const ends = found
    .filter((one) => one.of !== "naive")
    .map(({ error, width }) => middle(error.map((one, i) => Math.abs(one) + width[i]!)));
  const reach = 1.6 * Math.max(...ends.filter(Number.isFinite), 0);
  const claims = middle(naive.width) / (1.96 * rms(naive.error));
  const verdict =
    claims > 1.5
      ? `${times(claims)} wider than need be, since errors that are shared cancel`
      : claims < 1 / 1.5
        ? `${times(1 / claims)} too narrow`
        : "about right here";
  const missing = chosen.count < 100 ? ` ${100 - chosen.count} runs gave none.` : "";
  const which = about === "long" ? "the rate in the long run" : "the rate over its own run";
  return {
    reading: null,
    pictures:
      chosen.count === 0
        ? []
        : [
            (options) =>
              intervalsChart({ ...chosen, name: names[chosen.of], which, reach }, options),
          ],
    words: `Of ${chosen.count} intervals by ${names[chosen.of]}, ${chosen.missed === 0 ? "none misses" : chosen.missed === 1 ? "one misses" : `${chosen.missed} miss`} ${which}.${missing} The claim of s/√K is ${verdict}.`,
    grade:
      about === "run" && of !== "naive" ? (said) => gradeChoice(Number(said), choices, [1]) : null,
    table: {
      isOpen: true,
      caption: `A hundred runs, held against ${which}`,
      head: [
        "Estimate",
        "Missed",
        "Error, rms (ms/day)",
        "Half-width at 95\u00a0%, median (ms/day)",
      ],
      rows: found.map((one) => [
        names[one.of],
        `${one.missed} of ${one.count}`,
        one.count === 0 ? "–" : figure(rms(one.error)),
        one.count === 0 ? "–" : figure(middle(one.width)),
      ]),
    },
  };
}
