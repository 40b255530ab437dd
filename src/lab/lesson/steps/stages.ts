import {
  type ChartOptions,
  logLogChart,
  type SvgNode,
  seriesStyle,
} from "../../../view/chart/index.ts";
import type { NoisyStage, Tasks } from "../../protocol.ts";
import { figure, msPerDay, size } from "../amounts.ts";
import { gateWords } from "../gate-words.ts";
import { gradeChoice, largestOf } from "../grade.ts";
import { noisyStages } from "../silence-stages.ts";
import type { LessonContext, Shown, Step } from "../step.ts";

const names: Readonly<Record<NoisyStage, string>> = {
  reference: "the reference oscillator",
  synthesizer: "the synthesizer and its loop",
  drive: "the tone bursts",
  receiver: "the receiver's own noise",
  counter: "the counter",
  "time base": "the counter's time base",
};

/** Gates that can be looked at. */
const looks = ["1", "10", "50"];

/** Step 3: where the scatter comes from. */
export function stagesStep({ scenario }: LessonContext): Step<"stages"> {
  const stages = noisyStages(scenario);
  const words = (units: string) => gateWords(scenario, Number(units));
  return {
    id: "stages",
    title: "What scatters",
    intro:
      "Each stage of the chain adds something to a reading. Here the noise of each can be switched off, which no bench allows.",
    question: {
      kind: "choice",
      text: `Which stage makes most of the scatter of readings of ${words("1")}?`,
      choices: stages.map((stage) => names[stage]),
    },
    controls: [
      {
        kind: "stages",
        key: "off",
        label: "Stages that make noise",
        values: stages,
        text: (stage) => names[stage as NoisyStage],
      },
      { kind: "select", key: "look", label: "Length of a reading", values: looks, text: words },
    ],
    task: "stages",
    ask: ({ seed, off, look }) => ({ seed, off: stagesIn(off), units: Number(look) }),
    show: (answer, { off, look }) => show(answer, stagesIn(off), words(look), stages, look === "1"),
  };
}

/** Stages named in a setting. */
export function stagesIn(text: string): readonly NoisyStage[] {
  return text.split(",").filter((stage): stage is NoisyStage => Object.hasOwn(names, stage));
}

function show(
  answer: Tasks["stages"]["answer"],
  off: readonly NoisyStage[],
  gate: string,
  stages: readonly NoisyStage[],
  isQuestion: boolean,
): Shown {
  const { simulated, expected, shares, courses } = answer;
  const isSilent = !(expected > 0);
  const switched =
    off.length === 0
      ? "With everything on"
      : `With ${listed(off.map((stage) => names[stage]))} switched off`;
  const [most = 0] = largestOf(shares);
  const cause = isSilent
    ? ""
    : ` Without ${names[courses[most]!.stage]} it would be ${size(Math.sqrt(Math.max(0, expected ** 2 - shares[most]! ** 2)))}.`;
  const scatter = isSilent
    ? "nothing random is left by theory"
    : `readings of ${gate} scatter by ${size(expected)} by theory`;
  const isAsked = off.length === 0 && isQuestion && !isSilent;
  return {
    reading: null,
    pictures: isSilent ? [] : [(options) => picture(answer, options)],
    words: `${switched}, ${scatter}; ${simulated.readings} simulated readings scatter by ${size(simulated.rms)}${isSilent ? ", which is rounding" : ""}.${cause}`,
    grade: isAsked
      ? (said) =>
          gradeChoice(
            Number(said),
            stages.map((stage) => names[stage]),
            largestOf(shares),
          )
      : null,
    table: {
      caption: `What each stage adds to the scatter of readings of ${gate}: what goes when it alone is switched off`,
      head: ["Stage", "Adds (ms/day)", "Share of the square"],
      rows: courses.map(({ stage }, i) => [
        names[stage],
        figure(shares[i]!),
        isSilent ? "–" : `${Math.round((100 * shares[i]! ** 2) / expected ** 2)}\u00a0%`,
      ]),
    },
  };
}

function picture(answer: Tasks["stages"]["answer"], options: ChartOptions): SvgNode {
  const { gates, courses, total, simulated, gate } = answer;
  const scaled = (values: ArrayLike<number>) =>
    Float64Array.from(values, (value) => value * msPerDay);
  const curves = courses
    .filter(({ fraction }) => fraction.some((value, i) => value > 1e-3 * total[i]!))
    .map(({ stage, fraction }, i) => ({
      name: names[stage].replace(/^the /, ""),
      x: gates,
      y: scaled(fraction),
      look: { style: seriesStyle(i), hasLine: true, hasMarkers: false },
    }));
  const sum = { style: { color: "ink", dash: "", marker: "circle" }, hasMarkers: false } as const;
  return logLogChart(
    {
      chart: "stages",
      heading: "What each stage adds, by the length of a reading",
      x: { quantity: "Length of a reading", unit: "s" },
      y: { quantity: "Scatter, rms", unit: "ms/day" },
      curves: [
        ...curves,
        {
          name: "all together",
          x: gates,
          y: scaled(total),
          look: { ...sum, hasLine: true, width: 2.5 },
        },
        {
          name: "simulated",
          x: Float64Array.of(gate),
          y: scaled([simulated.rms]),
          low: scaled([simulated.low]),
          high: scaled([simulated.high]),
          look: { ...sum, hasLine: false, hasMarkers: true, isOpen: true },
        },
      ],
      guides: [],
      isSquare: false,
    },
    options,
  );
}

function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}
