import { budgetChart, numberText } from "../../../view/chart/index.ts";
import type { BudgetRow, NoisyStage, Tasks } from "../../protocol.ts";
import { gateWords } from "../gate-words.ts";
import { perDay } from "../per-day.ts";
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

/** Gates that the budget can be looked at with. */
const looks = ["1", "10", "50"];

/** Step 2: where the scatter comes from. */
export function stagesStep({ scenario }: LessonContext): Step<"stages"> {
  const stages = noisyStages(scenario);
  const words = (units: string) => gateWords(scenario, Number(units));
  return {
    id: "stages",
    title: "Where the scatter comes from",
    intro:
      "Each stage of the chain adds something to a reading. Here the noise of each can be switched off, which no bench allows.",
    question: `Which stage makes most of the scatter of readings of ${words("1")}?`,
    choices: stages.map((stage) => names[stage]),
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
    ask: ({ seed, off, look }) => ({ seed, off: stagesIn(off), periods: Number(look) }),
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
  const random = answer.rows.filter((row) => row.kind === "random" && row.fraction > 0);
  const shares = stages.map((stage) => rootSum(random.filter((row) => row.stage === stage)));
  const largest = shares.indexOf(Math.max(...shares));
  const { simulated } = answer;
  const switched =
    off.length === 0
      ? "With everything on"
      : `With ${listed(off.map((stage) => names[stage]))} switched off`;
  const isSilent = random.length === 0;
  const expectation = isSilent
    ? "nothing random is left by theory"
    : `a reading of ${gate} scatters by ${perDay(answer.expected)} by theory`;
  const cause = isSilent
    ? ""
    : ` Most of it comes from ${names[stages[largest]!]}: ${perDay(shares[largest]!)} on its own.`;
  return {
    reading: null,
    pictures: answer.courses.length === 0 ? [] : [(options) => picture(answer, options)],
    words: `${switched}, ${expectation}; ${simulated.readings} simulated readings scatter by ${perDay(simulated.rms)}${isSilent ? ", which is rounding" : ""}.${cause}`,
    right: off.length === 0 && isQuestion && !isSilent ? largest : null,
    table: {
      caption: `Uncertainty budget of a reading of ${gate}`,
      head: ["Stage", "Cause", "Kind", "Size (fraction)"],
      rows: answer.rows.map((row) => [row.stage, row.cause, row.kind, numberText(row.fraction, 2)]),
    },
  };
}

function picture(
  answer: Tasks["stages"]["answer"],
  options: Parameters<typeof budgetChart>[1],
): ReturnType<typeof budgetChart> {
  const { gates, courses, total, simulated, gate } = answer;
  const found =
    simulated.rms > 0
      ? {
          simulated: {
            gate: Float64Array.of(gate),
            fraction: Float64Array.of(simulated.rms),
            low: Float64Array.of(simulated.low),
            high: Float64Array.of(simulated.high),
          },
        }
      : {};
  return budgetChart({ gate: gates, stages: courses, total, ...found }, options);
}

const rootSum = (rows: readonly BudgetRow[]) =>
  Math.sqrt(rows.reduce((sum, { fraction }) => sum + fraction * fraction, 0));

function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}
