import { readingsChart } from "../../../view/chart/index.ts";
import type { Tasks } from "../../protocol.ts";
import { amount, fastOrSlow, figure, gainsOrLoses, msPerDay, size } from "../amounts.ts";
import { inputWords, periodDecimals } from "../gate-words.ts";
import { gradeAmount } from "../grade.ts";
import { type LessonContext, type Shown, type Step, scaleOf } from "../step.ts";

/** A reading that is off by less than this part of what is usual is lucky. */
const lucky = 1 / 4;

const perDay = (ms: number) => size(ms / msPerDay, 1);

/** Step 2: a single period says nothing about the rate. */
export function onePeriodStep({ scenario }: LessonContext): Step<"periods"> {
  const what = inputWords(scenario);
  return {
    id: "period",
    title: "One period",
    intro: `The counter times one period of ${what}, from one edge to the next. What ${what} does in the long run is known here, since all of it is simulated; at a bench it is what you want to find.`,
    question: {
      kind: "amount",
      text: `Take a single period for the rate of ${what}. How far off will you be, typically?`,
      values: scaleOf(-3, 10),
      write: perDay,
    },
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

function show(
  { start, period, rate, longRun, theory }: Tasks["periods"]["answer"],
  count: number,
  what: string,
  resolution: number,
): Shown {
  const n = Math.min(count, rate.length);
  const read = rate[n - 1]!;
  const error = read - longRun;
  // Those to come leave their places free, so that the axis of time does not jump.
  const drawn = rate.map((value, i) => (i < n ? value * msPerDay : Number.NaN));
  const none = new Float64Array(rate.length).fill(Number.NaN);
  const shown = rate.slice(0, n);
  const found = shown.filter(Number.isFinite);
  const span =
    found.length > 1
      ? ` The ${n} periods so far lie between ${amount(Math.min(...found))} and ${amount(Math.max(...found))}.`
      : "";
  const luck = Math.abs(error) < lucky * theory ? ", which is luck" : "";
  const single = Number.isFinite(read)
    ? `By period ${n} alone ${what} would be ${fastOrSlow(read)}. In the long run it ${gainsOrLoses(longRun)}: this period is off by ${size(error)}${luck}.`
    : `Period ${n} is too short for the counter to read: no rate follows from it. In the long run ${what} ${gainsOrLoses(longRun)}.`;
  const decimals = periodDecimals(resolution, 1);
  const nominal = period.reduce((sum, value) => sum + value, 0) / period.length;
  return {
    reading: {
      label: `Period ${n}`,
      value: period[n - 1]!,
      // Of the period itself: where it is off by as much as it is long, its rate is off by less than that.
      uncertainty: theory * nominal,
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
                  time: start,
                  reading: drawn,
                  mean: none,
                  halfWidth: none,
                  truth: longRun * msPerDay,
                  quantity: "Rate by a single period",
                  unit: "ms/day",
                },
                options,
              ),
          ],
    words: `${single}${span} By theory a single period is off by ${size(theory)} rms.`,
    grade: (said) => gradeAmount(Number(said), theory * msPerDay, (ms) => size(ms / msPerDay)),
    table: {
      caption: "Periods measured",
      head: ["Period", "Read (s)", "Rate by it (ms/day)", "Off the long run by (ms/day)"],
      rows: [...shown].map((value, i) => [
        `${i + 1}`,
        period[i]!.toFixed(decimals),
        Number.isFinite(value) ? figure(value, 4) : "none",
        Number.isFinite(value) ? figure(value - longRun, 4) : "–",
      ]),
    },
  };
}
