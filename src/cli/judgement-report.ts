import type { HeldRate } from "../judgement/index.ts";
import type { NamedPicture, Report } from "../view/report/index.ts";
import { halfWidthText, humanDuration, plusMinus, rateWithin } from "../view/words/index.ts";
import type { JudgedLog } from "./judge-log.ts";
import { printJudgement } from "./print-judgement.ts";
import { partsOf } from "./style.ts";

/** What is asked beside the rate. */
export interface ReportAsked {
  readonly title: string;
  readonly within: number | null;
  readonly of: "run" | "day" | "long";
}

type Content = Pick<Report, "title" | "answer" | "pictures" | "facts" | "details">;

/** Pictures that a report shows. */
const shown = ["readings", "time-error", "stability"];

/** The report of a judgement: the answer in a sentence, how it came about, all numbers as `judge` prints them. */
export function judgementReport(
  { judgement, read }: JudgedLog,
  { title, within, of }: ReportAsked,
  pictures: readonly NamedPicture[],
): Content {
  const { headline, estimates, longer, ahead } = judgement;
  const [, record = [], ...details] = partsOf(() => printJudgement(judgement, read, within));
  const texts = record.flatMap((part) =>
    "rows" in part ? [] : "lines" in part ? part.lines : [part.text],
  );
  const measured = /^(Record:|Read:|A single reading|Timing noise)/;
  const assumed = read.notes.filter(({ code }) => code.startsWith("assumed"));
  const isAssumed = (text: string) => assumed.some(({ message }) => text.includes(message));
  const spoils = texts.filter((text) => !measured.test(text) && !isAssumed(text));
  const now = longer?.[0];
  const wanted = `${halfWidthText(within ?? 0)} of the ${of === "run" ? "rate over this run" : "steady rate"}`;
  const answer =
    headline === null
      ? [`No rate: ${estimates[0]?.why ?? ""}.`]
      : [
          sentence("over this run of", headline.overRun, headline.duration),
          `Steady rate: ${rateOf(headline.steady)} (95 %).`,
          ...headline.systematicCauses.map(
            ({ cause, bound }) =>
              `This may be shifted, either way, by up to ${halfWidthText(bound).slice(1)} (${cause.replaceAll("_", " ")}).`,
          ),
        ];
  const period = read.readings.nominalPeriod;
  for (const { after, gain, interval95 } of ahead ?? []) {
    const half = (interval95[1] - interval95[0]) / 2;
    answer.push(
      `In ${humanDuration(after)}: ${plusMinus(Math.abs(gain), half)} s ${gain < 0 ? "behind" : "ahead"} (95 %), if it goes on as now.`,
    );
  }
  return {
    title,
    answer,
    pictures: pictures.filter(({ name }) => shown.includes(name)).map(({ node }) => node),
    facts: [
      ["How it was measured", texts.filter((text) => measured.test(text))],
      [
        "How it ended",
        [
          within === null
            ? "No goal was set."
            : `Wanted: ${wanted}; ${now === undefined ? "what was reached cannot be told" : `${halfWidthText(now.now)} was reached: ${now.now <= within ? "met" : "not met"}`}.`,
        ],
      ],
      ["What spoiled it", spoils.length > 0 ? spoils : ["Nothing was found that did."]],
      [
        "What was assumed",
        [
          ...(period === undefined ? [] : [`The nominal period is ${period} s.`]),
          headline !== null && headline.systematicBound > 0
            ? `What shifts every reading alike is at most ${halfWidthText(headline.systematicBound)}.`
            : "The time base is perfect: nothing was said of it (--timebase).",
          ...assumed.map(({ message }) => `${message[0]!.toUpperCase()}${message.slice(1)}.`),
        ],
      ],
      [
        "What is not known",
        [
          ...(judgement.nextRun > 0
            ? [
                `Another run as long may differ by ${halfWidthText(judgement.nextRun)} (one standard deviation).`,
              ]
            : []),
          "How the clock goes in other seasons and temperatures; whole days in each would tell.",
        ],
      ],
    ],
    details,
  };
}

const halfOf = ({ interval95: [low, high] }: HeldRate) => (high - low) / 2;
const rateOf = (held: HeldRate) => rateWithin(held.rate, halfOf(held));

/** The sentence to quote: gained or lost, where the interval says which. */
function sentence(when: string, held: HeldRate, duration: number): string {
  const [low, high] = held.interval95;
  const span = `(95 %) ${when} ${humanDuration(duration)}.`;
  if (low <= 0 && high >= 0) return `The clock's rate was ${rateOf(held)} ${span}`;
  const size = rateWithin(Math.abs(held.rate), halfOf(held)).replace("+", "");
  return `The clock ${held.rate < 0 ? "lost" : "gained"} ${size} ${span}`;
}
