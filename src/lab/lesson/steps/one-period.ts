import { numberText, quantityText, readingsChart } from "../../../view/chart/index.ts";
import type { ReadingSeries } from "../../protocol.ts";
import { inputWords, periodDecimals } from "../gate-words.ts";
import { classOf } from "../nearest-choice.ts";
import { fastOrSlow, gainsOrLoses, perDay } from "../per-day.ts";
import type { LessonContext, Shown, Step } from "../step.ts";

const day = 86400;
/** Limits between the predictions; s a day. */
const limits = [0.01, 1, 60];

/** Step 1: a single period says nothing about the rate. */
export function onePeriodStep({ scenario }: LessonContext): Step<"periods"> {
  const what = inputWords(scenario);
  return {
    id: "period",
    title: "One period",
    intro: `The counter times one period of ${what}, from one edge to the next. What ${what} really does is known here, since all of it is simulated; at a bench it is what you want to find.`,
    question: `Take a single period for the rate of ${what}. How far off will you be, typically?`,
    choices: [
      "by less than 10 ms a day",
      "by 10 ms to 1 s a day",
      "by 1 s to 1 min a day",
      "by more than a minute a day",
    ],
    controls: [
      {
        kind: "stepper",
        key: "periods",
        label: "Periods measured",
        least: 1,
        most: 100,
        back: "One fewer",
        on: "Measure another",
      },
    ],
    task: "periods",
    ask: ({ seed }) => ({ seed }),
    show: (answer, { periods }) => show(answer, Number(periods), what, scenario.counter.resolution),
  };
}

function show(all: ReadingSeries, count: number, what: string, resolution: number): Shown {
  const n = Math.min(count, all.rate.length);
  const rate = all.rate.slice(0, n);
  const last = n - 1;
  const truth = all.truthOverall;
  const read = all.rate[last]!;
  const error = read - all.truth[last]!;
  const found = rate.filter(Number.isFinite);
  const typical = rms(all.rate.map((value, i) => value - all.truth[i]!));
  // Of the period itself: where it is off by as much as it is long, its rate is off by less than that.
  const offPeriod = rms(
    all.period.map((value, i) => value - all.nominalPeriod / (1 + all.truth[i]!)),
  );
  const spread =
    found.length > 1
      ? ` The ${n} periods so far lie between ${quantityText(Math.min(...found) * day, "s", 2)} and ${quantityText(Math.max(...found) * day, "s", 2)} a day.`
      : "";
  const luck = Math.abs(error) < typical / 4 ? ", by luck" : "";
  const single = Number.isFinite(read)
    ? `By period ${n} alone ${what} would be ${fastOrSlow(read)}. It really ${gainsOrLoses(truth)}: this period is off by ${perDay(error)}${luck}.`
    : `Period ${n} is too short for the counter to read: no rate follows from it. In truth ${what} ${gainsOrLoses(truth)}.`;
  const decimals = periodDecimals(resolution, 1);
  return {
    reading: {
      label: `Period ${n}`,
      value: all.period[last]!,
      uncertainty: offPeriod,
      decimals,
      unit: "s",
    },
    pictures:
      found.length === 0
        ? []
        : [
            (options) =>
              readingsChart(
                {
                  time: all.start.slice(0, n),
                  reading: rate.map((value) => value * day),
                  mean: new Float64Array(n).fill(Number.NaN),
                  halfWidth: new Float64Array(n).fill(Number.NaN),
                  truth: truth * day,
                  quantity: "Rate by a single period",
                  unit: "s/day",
                },
                options,
              ),
          ],
    words: `Over ${all.rate.length} periods a single one is off by ${perDay(typical)} rms. ${single}${spread}`,
    right: classOf(typical * day, limits),
    table: {
      caption: "Periods measured",
      head: ["Period", "Read (s)", "Rate by it (s/day)", "Off by (s/day)"],
      rows: [...rate].map((value, i) => [
        `${i + 1}`,
        all.period[i]!.toFixed(decimals),
        Number.isFinite(value) ? numberText(value * day, 4) : "none",
        Number.isFinite(value) ? numberText((value - all.truth[i]!) * day, 4) : "–",
      ]),
    },
  };
}

function rms(values: Float64Array): number {
  const finite = values.filter(Number.isFinite);
  return Math.sqrt(finite.reduce((sum, value) => sum + value * value, 0) / finite.length);
}
