import { logLogChart, seriesStyle } from "../../../view/chart/index.ts";
import type { GateSpread, Tasks } from "../../protocol.ts";
import { figure, msPerDay, size, times } from "../amounts.ts";
import { gateWords, inputWords } from "../gate-words.ts";
import type { Grade } from "../grade.ts";
import { type Settings, saidIn } from "../settings.ts";
import type { LessonContext, Shown, Step } from "../step.ts";

/** Gates that a curve is drawn through. */
const places = [1, 2, 5, 10, 20, 50, 100];

/** A drawing is right where it is nowhere further off than by this factor. */
const nearEnough = 2;

/** Step 5: how the scatter falls with the gate, drawn before it is shown. */
export function longerGateStep({ scenario }: LessonContext): Step<"gates"> {
  const words = (units: number) => gateWords(scenario, units);
  return {
    id: "draw",
    title: "A longer gate",
    intro: `The same ticks of ${inputWords(scenario)} again; only the gate of the counter is longer, so that a reading is the mean over a longer stretch.`,
    question: {
      kind: "sketch",
      text: "Draw how the scatter of the readings falls as the gate grows.",
      places,
      name: words,
    },
    controls: [],
    task: "gates",
    ask: ({ seed }) => ({ seed }),
    show: (answer, settings) => show(answer, settings, words),
  };
}

function show(
  { gates }: Tasks["gates"]["answer"],
  { said }: Settings,
  words: (units: number) => string,
): Shown {
  const [first, last] = [gates[0]!, gates.at(-1)!];
  const drawn = sketchIn(saidIn(said, "draw"));
  const x = Float64Array.from(gates, ({ gate }) => gate);
  const column = (value: (one: GateSpread) => number) =>
    Float64Array.from(gates, (one) => value(one) * msPerDay);
  const guide = { at: first.gate, level: first.theory * msPerDay, from: first.gate, to: last.gate };
  return {
    reading: null,
    pictures: [
      (options) =>
        logLogChart(
          {
            chart: "longerGate",
            heading: "Scatter of single readings by gate",
            x: { quantity: "Gate", unit: "s" },
            y: { quantity: "Scatter, rms", unit: "ms/day" },
            curves: [
              {
                name: "measured",
                x,
                y: column(({ spread }) => spread.rms),
                low: column(({ spread }) => spread.low),
                high: column(({ spread }) => spread.high),
                look: { style: seriesStyle(0), hasLine: false, hasMarkers: true },
              },
              {
                name: "theory",
                x,
                y: column(({ theory }) => theory),
                look: { style: seriesStyle(0), hasLine: true, hasMarkers: false },
              },
              ...(drawn === null
                ? []
                : [
                    {
                      name: "as you drew it",
                      x,
                      y: Float64Array.from(drawn, (share) => share * first.theory * msPerDay),
                      look: { style: seriesStyle(1), hasLine: true, hasMarkers: false, width: 2.5 },
                    },
                  ]),
            ],
            guides: [
              { name: "slope of 1/√n", slope: -0.5, ...guide },
              { name: "slope of 1/n", slope: -1, ...guide },
            ],
            isSquare: false,
          },
          options,
        ),
    ],
    words: `Readings of ${words(first.units)} scatter by ${size(first.spread.rms)}, those of ${words(last.units)} by ${size(last.spread.rms)}: ${times(first.spread.rms / last.spread.rms)} less. Only the two ticks at the ends of a gate are timed; what the others do does not count.`,
    grade: (text) => gradeSketch(sketchIn(text), gates),
    table: {
      caption: "Scatter of single readings by gate",
      head: [
        "Gate",
        "Readings",
        "Scatter (ms/day)",
        "95\u00a0% interval (ms/day)",
        "Theory (ms/day)",
      ],
      rows: gates.map(({ units, spread, theory }) => [
        words(units),
        `${spread.readings}`,
        figure(spread.rms, 3),
        `${figure(spread.low, 3)} to ${figure(spread.high, 3)}`,
        figure(theory, 3),
      ]),
    },
  };
}

/** A drawn curve, as shares of the scatter at the shortest gate. */
function sketchIn(text: string | null): readonly number[] | null {
  const shares = (text ?? "").split("-").map(Number);
  return shares.length === places.length && shares.every((share) => share > 0) ? shares : null;
}

/** Holds a drawing against theory, and says why it was tempting. */
function gradeSketch(drawn: readonly number[] | null, gates: readonly GateSpread[]): Grade {
  if (drawn === null) return { isRight: false, words: "You drew nothing." };
  const theory = gates.map((one) => one.theory / gates[0]!.theory);
  const off = drawn.map((share, i) => Math.abs(Math.log(share / theory[i]!)));
  const isRight = Math.max(...off) <= Math.log(nearEnough);
  const slopeOf = (shares: readonly number[]) =>
    Math.log(shares.at(-1)!) / Math.log(places.at(-1)!);
  const drew = slopeOf(drawn);
  const tempting =
    drew > -0.25
      ? "You drew it nearly level: so it would be if the whole gate were as uncertain as one period."
      : drew > -0.75
        ? "You drew about 1/√n: right if every tick added an error of its own, as readings do that are averaged."
        : drew > -1.25
          ? "You drew about 1/n: right while only the two ends of a gate count."
          : "You drew it steeper than 1/n: a longer gate cannot undo the lateness of its two ends.";
  const real = slopeOf(theory);
  const answer = real < -0.75 ? "about 1/n" : real < -0.25 ? "about 1/√n" : "hardly at all";
  return {
    isRight,
    words: isRight
      ? `Well drawn. ${tempting}`
      : `${tempting} Here it falls ${answer === "hardly at all" ? answer : `as ${answer}`}.`,
  };
}
