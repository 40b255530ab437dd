import { burstChart, quantityText } from "../../../view/chart/index.ts";
import type { Tasks } from "../../protocol.ts";
import { gradeAmount } from "../grade.ts";
import { type Shown, type Step, scaleOf } from "../step.ts";

/** Bursts that can be stepped through. */
const mostBursts = 200;

/** What of a burst can be shown. */
const burstSpans = ["step", "burst"];

/** Beside the steps: what the receiver makes of one burst, burst after burst. */
export function insideABurstStep(): Step<"bursts"> {
  return {
    id: "burst",
    title: "Inside a burst",
    intro:
      "A burst of the tone is rectified and charges an integrator; when its voltage reaches the threshold, the clock steps. Go from burst to burst and watch the moment of the step.",
    question: {
      kind: "amount",
      text: "By how much does the time from the start of a burst to its step scatter?",
      values: scaleOf(-9, -1),
      write: (delay) => quantityText(delay, "s", 1),
    },
    controls: [
      {
        kind: "stepper",
        key: "burst",
        label: "Burst",
        least: 1,
        most: mostBursts,
        back: "Burst before",
        on: "Next burst",
      },
      {
        kind: "select",
        key: "span",
        label: "Show",
        values: burstSpans,
        text: (span) => (span === "step" ? "the rise to the step" : "the whole burst"),
      },
    ],
    task: "bursts",
    ask: ({ seed, burst }) => ({ seed, burst: Number(burst) }),
    show: (answer, { burst, span }) => show(answer, Number(burst), span === "step"),
  };
}

function show(answer: Tasks["bursts"]["answer"], burst: number, isCut: boolean): Shown {
  const { delays, phase, hasNoise, time, theory } = answer;
  const delay = delays[burst - 1]!;
  const steps = delays.filter(Number.isFinite);
  const mean = steps.reduce((sum, value) => sum + value, 0) / steps.length;
  const spread = Math.sqrt(
    steps.reduce((sum, value) => sum + (value - mean) ** 2, 0) / Math.max(1, steps.length - 1),
  );
  // The same stretch for all bursts, so that their delays can be compared by eye.
  const end = isCut ? Math.min(time.at(-1)!, 1.5 * Math.max(...steps, 0)) : time.at(-1)!;
  const shown = Math.max(2, time.findLastIndex((t) => t <= end || t <= delay) + 1);
  const outcome = Number.isNaN(delay)
    ? "and the threshold is not reached: no step, the clock loses one"
    : `and the voltage reaches the threshold ${quantityText(delay, "s", 4)} after the start`;
  const plain = hasNoise ? "" : " The voltage is drawn without its noise.";
  return {
    reading: null,
    pictures: [
      (options) =>
        burstChart(
          {
            time: time.slice(0, shown),
            voltage: answer.voltage.slice(0, shown),
            tone: answer.tone.slice(0, shown),
            threshold: answer.threshold,
            burst: answer.burst,
            delay: Number.isNaN(delay) ? null : delay,
            number: burst,
          },
          options,
        ),
    ],
    words: `Burst ${burst} begins ${phase.toFixed(2)} of a cycle into the tone, ${outcome}. Over the first ${delays.length} bursts the delay is ${quantityText(mean, "s", 4)} on the average and scatters by ${quantityText(spread, "s", 2)}; by theory by ${quantityText(theory, "s", 2)}.${plain}`,
    grade: (said) => gradeAmount(Number(said), theory, (delay) => quantityText(delay, "s", 2)),
    table: {
      caption: "Delays of the bursts up to this one",
      head: ["Burst", "Delay (ms)"],
      rows: [...delays]
        .slice(Math.max(0, burst - 10), burst)
        .map((value, i) => [
          `${Math.max(0, burst - 10) + i + 1}`,
          Number.isNaN(value) ? "no step" : (value * 1e3).toFixed(4),
        ]),
    },
  };
}
