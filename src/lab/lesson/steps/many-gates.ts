import { nominalPeriod } from "../../../chain/index.ts";
import type { Scenario } from "../../../scenario/index.ts";
import { numberText, readingsChart, timeErrorChart } from "../../../view/chart/index.ts";
import type { JudgedEstimate, Outlier, Tasks } from "../../protocol.ts";
import { estimateWords, estimatorNames } from "../estimate-words.ts";
import { gateWords } from "../gate-words.ts";
import { gateUnit } from "../lesson-scenario.ts";
import { nearestChoice } from "../nearest-choice.ts";
import { gainsOrLoses, perDay } from "../per-day.ts";
import type { Settings } from "../settings.ts";
import type { Control, LessonContext, Shown, Step } from "../step.ts";

const day = 86400;

const outlierWords: Readonly<Record<Outlier, string>> = {
  none: "no edge is missed",
  kept: "one edge is missed, its reading left in",
  dropped: "one edge is missed, its reading dropped",
  repaired: "one edge is missed, its reading repaired",
};

const treatments: Readonly<Record<Outlier, string>> = {
  none: "left alone",
  kept: "left in",
  dropped: "dropped",
  repaired: "repaired",
};

const edgeControl: Control = {
  kind: "select",
  key: "edge",
  label: "In the middle of the run",
  values: ["none", "kept", "dropped", "repaired"],
  text: (outlier) => outlierWords[outlier as Outlier],
};

/** Step 4: many gates, and three ways to make one rate of them. */
export function manyGatesStep({ scenario }: LessonContext): Step<"many"> {
  // Where many periods lie within the noise, nobody could tell that one is missing.
  const canMissEdges = gateUnit(scenario) === nominalPeriod(scenario);
  return {
    id: "many",
    title: "Many gates",
    intro:
      "Now many readings, and three ways to make one rate of them: the mean of all, the first and the last edge alone, and a straight line through the accumulated time error.",
    question:
      "K gates follow one another back to back. How much surer is their mean than one of them?",
    choices: ["hardly at all", "√K times", "K times", "more than K times"],
    controls: [
      {
        kind: "select",
        key: "units",
        label: "Gate",
        values: ["1", "2", "5", "10", "20", "50"],
        text: (units) => gateWords(scenario, Number(units)),
      },
      {
        kind: "select",
        key: "count",
        label: "Number of gates K",
        values: ["10", "20", "40", "80", "160"],
        text: (count) => count,
      },
      {
        kind: "select",
        key: "dead",
        label: "Between the gates",
        values: ["no", "yes"],
        text: (dead) =>
          dead === "yes" ? "dead time: the counter rearms" : "nothing: they are back to back",
      },
      ...(canMissEdges ? [edgeControl] : []),
    ],
    task: "many",
    ask: ({ seed, units, count, dead, edge }) => ({
      seed,
      periods: Number(units),
      readings: Number(count),
      hasDeadTime: dead === "yes",
      outlier: edge as Outlier,
    }),
    show: (answer, settings) => show(answer, settings, scenario),
  };
}

function show(answer: Tasks["many"]["answer"], settings: Settings, scenario: Scenario): Shown {
  const { estimates, readings, single } = answer;
  const k = Number(settings.count);
  const [mean] = estimates;
  const isQuestion = settings.dead === "no" && settings.edge === "none";
  const gain = single.rms / mean!.standardUncertainty;
  const shared = sharedReasons(estimates);
  return {
    reading: null,
    pictures: [
      (options) =>
        readingsChart(
          {
            time: readings.start,
            reading: readings.rate.map((rate) => rate * day),
            mean: answer.mean.map((rate) => rate * day),
            halfWidth: answer.halfWidth.map((width) => width * day),
            truth: readings.truthOverall * day,
            unit: "s/day",
          },
          options,
        ),
      (options) =>
        timeErrorChart(
          {
            time: answer.edgeTime,
            timeError: answer.edgeError,
            fit: answer.fit,
            slips: [],
            fallback: [],
          },
          options,
        ),
    ],
    words: words(answer, settings, gateWords(scenario, Number(settings.units)), gain),
    right: isQuestion ? nearestChoice(gain, [1, Math.sqrt(k), k, k * Math.sqrt(k)]) : null,
    table: {
      isOpen: true,
      caption: ["The rate by three ways, expanded uncertainty at 95\u00a0%", ...shared].join("; "),
      head: ["Way", "Rate", "Off its truth by", "Claimed by s/√K", "Note"],
      rows: estimates.map((estimate) => [
        estimatorNames[estimate.method],
        estimateWords(estimate),
        Number.isFinite(estimate.rate) ? perDay(estimate.rate - estimate.truth) : "–",
        perDay(1.96 * estimate.naiveStandardUncertainty),
        noteOn(estimate, shared),
      ]),
    },
  };
}

/** Reasons that an estimate gives, of which there may be several. */
const reasonsOf = ({ why }: JudgedEstimate) => why.split("; ");

/** Reasons that all estimates give alike: they are said once. */
function sharedReasons(estimates: readonly JudgedEstimate[]): readonly string[] {
  const [first, ...others] = estimates.map(reasonsOf);
  return first!.filter((reason) => others.every((reasons) => reasons.includes(reason)));
}

function noteOn(estimate: JudgedEstimate, shared: readonly string[]): string {
  const own = reasonsOf(estimate)
    .filter((reason) => !shared.includes(reason))
    .join("; ");
  if (estimate.applies) return own;
  return own === "" ? "does not apply" : `does not apply: ${own}`;
}

function words(
  { estimates, single, outlierAt, readings }: Tasks["many"]["answer"],
  settings: Settings,
  gate: string,
  gain: number,
): string {
  const [mean] = estimates;
  const best = bestOf(estimates);
  const between = settings.dead === "yes" ? "with dead time between them" : "back to back";
  const scatter = `which scatters by ${perDay(single.rms)}`;
  const surer =
    gain >= 1
      ? `${numberText(gain, 2)} times surer than one reading, ${scatter}`
      : `less sure than one reading, ${scatter}`;
  const found = Number.isFinite(mean!.standardUncertainty)
    ? `Their mean says ${estimateWords(mean!)} at 95\u00a0%, ${surer}.`
    : `Their mean is ${estimateWords(mean!)}, of unknown uncertainty: ${mean!.why}.`;
  const outlier =
    outlierAt < 0
      ? ""
      : ` An edge was missed in reading ${outlierAt + 1}, which is ${treatments[settings.edge as Outlier]}.`;
  const surest =
    best === undefined || best === mean
      ? ""
      : ` The surest way here is the ${estimatorNames[best.method]}: ${estimateWords(best)}.`;
  const truth = ` In truth it ${gainsOrLoses(readings.truthOverall, 3)} in this run, which lies ${holdsTruth(mean!) ? "inside" : "outside"} the interval of the mean.`;
  return `${settings.count} gates of ${gate}, ${between}.${outlier} ${found}${surest}${truth}`;
}

/** Whether the interval of an estimate, widened by its systematic bound, holds its truth. */
function holdsTruth({ interval95: [low, high], systematicBound, truth }: JudgedEstimate): boolean {
  return low - systematicBound <= truth && truth <= high + systematicBound;
}

function bestOf(estimates: readonly JudgedEstimate[]): JudgedEstimate | undefined {
  return estimates
    .filter((estimate) => estimate.applies && Number.isFinite(estimate.standardUncertainty))
    .toSorted((a, b) => a.standardUncertainty - b.standardUncertainty)[0];
}
