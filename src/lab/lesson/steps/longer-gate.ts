import { nominalPeriod } from "../../../chain/index.ts";
import type { Scenario } from "../../../scenario/index.ts";
import { errorAgainstGateChart, histogramChart, numberText } from "../../../view/chart/index.ts";
import type { GateSeries, Tasks } from "../../protocol.ts";
import { gateWords, inputWords, periodDecimals } from "../gate-words.ts";
import { nearestChoice } from "../nearest-choice.ts";
import { perDay } from "../per-day.ts";
import type { LessonContext, Shown, Step } from "../step.ts";

const day = 86400;

/** Gates that can be chosen, in units of the gate. */
const longerGates = ["1", "2", "5", "10", "20", "50", "100"];

/** Step 3: a longer gate on the very same ticks. */
export function longerGateStep({ scenario }: LessonContext): Step<"gates"> {
  const isClock = scenario.counter.input === "clock";
  return {
    id: "gate",
    title: "A longer gate",
    intro: isClock
      ? "The same ticks again, each just as early or late as it was; only the gate of the counter is longer, so that a reading is the mean over several periods."
      : `The same run of ${inputWords(scenario)} again; only the gate of the counter is longer, so that a reading is the mean over a longer stretch.`,
    question: "Make the gate ten times as long. What becomes of the scatter of the readings?",
    choices: [
      "it stays as it is",
      "it falls to about a third (1/√10)",
      "it falls to about a tenth",
      "it falls to about a hundredth",
    ],
    controls: [
      {
        kind: "range",
        key: "gate",
        label: "Gate",
        values: longerGates,
        text: (units) => gateWords(scenario, Number(units)),
      },
    ],
    task: "gates",
    ask: ({ seed }) => ({ seed }),
    show: (answer, { gate }) => show(answer, Number(gate), scenario),
  };
}

function show(answer: Tasks["gates"]["answer"], units: number, scenario: Scenario): Shown {
  const { series, truth } = answer;
  const shortest = series[0]!;
  const chosen = series.find(({ periods }) => periods === units)!;
  const tenfold = series.find(({ periods }) => periods === 10)!;
  const words = (one: GateSeries) => gateWords(scenario, one.periods);
  const gain = shortest.spread.rms / chosen.spread.rms;
  const comparison =
    chosen === shortest
      ? "Choose a longer gate to compare."
      : `${chosen.spread.readings} readings of ${words(chosen)} scatter by ${perDay(chosen.spread.rms)}: ${numberText(gain, 2)} times less. Only the two edges at the ends of a gate are timed; what the others do does not count.`;
  const period = nominalPeriod(scenario);
  const cycles = Math.max(1, Math.round(chosen.gate / period));
  return {
    reading: {
      label: `First reading of ${words(chosen)}`,
      value: period / (1 + chosen.rate[0]!),
      uncertainty: chosen.spread.rms * period,
      decimals: periodDecimals(scenario.counter.resolution, cycles),
      unit: "s",
    },
    pictures: [
      (options) =>
        histogramChart(
          {
            gates: (chosen === shortest ? [shortest] : [shortest, chosen]).map((one) => ({
              gate: Number(one.gate.toPrecision(3)),
              reading: one.rate.map((rate) => rate * day),
            })),
            truth: truth * day,
            unit: "s/day",
          },
          options,
        ),
      (options) => {
        const measured = series.filter(({ spread }) => spread.rms > 0);
        const column = (value: (one: GateSeries) => number) =>
          Float64Array.from(measured, (one) => value(one));
        const within = { from: shortest.gate, to: series.at(-1)!.gate };
        const level = shortest.spread.rms;
        const at = shortest.gate;
        return errorAgainstGateChart(
          {
            series: [
              {
                name: "scatter of single readings",
                gate: column(({ gate }) => gate),
                error: column(({ spread }) => spread.rms),
                low: column(({ spread }) => spread.low),
                high: column(({ spread }) => spread.high),
              },
            ],
            laws: [
              { name: "every period errs anew", slope: -0.5, at, level, ...within },
              { name: "only the end edges count", slope: -1, at, level, ...within },
            ],
          },
          options,
        );
      },
    ],
    words: `Single readings of ${words(shortest)} scatter by ${perDay(shortest.spread.rms)}. ${comparison}`,
    right: nearestChoice(shortest.spread.rms / tenfold.spread.rms, [1, Math.sqrt(10), 10, 100]),
    table: {
      caption: "Scatter of single readings by gate",
      head: ["Gate", "Readings", "Scatter (s/day)", "95 % interval (s/day)"],
      rows: series.map((one) => [
        words(one),
        `${one.spread.readings}`,
        numberText(one.spread.rms * day, 3),
        `${numberText(one.spread.low * day, 3)} to ${numberText(one.spread.high * day, 3)}`,
      ]),
    },
  };
}
