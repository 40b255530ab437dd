import { oscillatorClasses } from "../../noise/index.ts";
import { parseAccuracy } from "../../planning/index.ts";

/** Answers as they were given, by the name of the question; one that is not known is not among them. */
export type Answers = Readonly<Record<string, string>>;

/** One plain question: on a terminal it is asked, on the command line its name is an option. */
export interface Question {
  readonly name: string;
  readonly asks: string;
  /** What Enter takes, and what is guessed where nobody knows. */
  readonly usual: (answers: Answers) => string;
  /** How to find out. */
  readonly help: string;
  /** What is wrong with an answer, or null. */
  readonly fault: (text: string) => string | null;
  /** Whether it arises, by the answers before it. */
  readonly arises: (answers: Answers) => boolean;
}

/** Plain numbers of an answer such as `1000.37, 60, 8`. */
export const numbersOf = (text: string): number[] =>
  text.split(",").map((part) => (part.trim() === "" ? Number.NaN : Number(part)));

const numbers =
  (names: readonly string[], least = 0) =>
  (text: string) => {
    const found = numbersOf(text);
    const isRight =
      found.length === names.length && found.every((n) => n > least || (n === 0 && least === 0));
    return isRight && !found.some((n) => n === Infinity)
      ? null
      : `give ${names.length === 1 ? "a number" : `${names.length} numbers`}: ${names.join(", ")}`;
  };

const oneOf = (words: readonly string[]) => (text: string) =>
  words.includes(text.trim()) ? null : `give one of ${words.join(", ")}`;

const always = () => true;
const withBursts = ({ drive = "bursts" }: Answers) => drive === "bursts";
const usually = (text: string) => () => text;

/** How long a burst may usually be: some tens of cycles, and well within its period. */
function usualTone({ tick = "1", steps = "1" }: Answers): string {
  const burst = Math.min(60, (300 * Number(tick)) / Number(steps));
  return `1000.37, ${Number(burst.toPrecision(2))}, 8`;
}

/** A threshold at two fifths of the peak amplitude, and a sixth of a burst to charge. */
function usualReceiver(answers: Answers): string {
  const [, burst = 60, volts = 8] = numbersOf(answers.tone ?? usualTone(answers));
  return [0.4 * Math.SQRT2 * volts, burst / 6].map((n) => Number(n.toPrecision(2))).join(", ");
}

/** A gate that is no whole number of ticks: one that is favours late edges. */
function usualCounter({ tick = "1" }: Answers): string {
  return `${Number((9.5 * Number(tick)).toPrecision(3))}, 0, 1e-7, 3e-6`;
}

/** The questions in their order. */
export const questions: readonly Question[] = [
  {
    name: "within",
    asks: "How well do you want to know the rate?",
    usual: usually("10 s/month"),
    help: "As a fraction (1e-6, 0.5ppm) or as time in time: 1 s/month, 2 ms/day.",
    fault(text) {
      try {
        return parseAccuracy(text) < 1 ? null : "give less than 1, which is 86400 s/day";
      } catch {
        return "give an accuracy such as 10 s/month, 2 ms/day or 1e-9";
      }
    },
    arises: always,
  },
  {
    name: "tick",
    asks: "How long is one tick, in seconds?",
    usual: usually("1"),
    help: "From one closing of the contact to the next. A sidereal second is 0.99726957 s.",
    fault: numbers(["s"], Number.MIN_VALUE),
    arises: always,
  },
  {
    name: "drive",
    asks: "What drives the clock: itself, bursts (of a tone), standard (straight)?",
    usual: usually("bursts"),
    help: "A clock that makes a step at each burst of a tone on a line: bursts.",
    fault: oneOf(["itself", "bursts", "standard"]),
    arises: always,
  },
  {
    name: "standard",
    asks: "What kind of oscillator stands behind it?",
    usual: ({ drive }) => (drive === "itself" ? "watch-crystal" : "quartz"),
    help: `One of ${Object.keys(oscillatorClasses).join(", ")}. The data sheet names it.`,
    fault: oneOf(Object.keys(oscillatorClasses)),
    arises: always,
  },
  {
    name: "steps",
    asks: "How many bursts make one tick?",
    usual: usually("1"),
    help: "Count the bursts of ten ticks on an oscilloscope.",
    fault: (text) => (/^[1-9]\d{0,5}$/.test(text.trim()) ? null : "give a whole number from 1"),
    arises: withBursts,
  },
  {
    name: "tone",
    asks: "Tone: how many Hz, burst in ms, volts rms?",
    usual: usualTone,
    help:
      "A second of the drive on an oscilloscope shows all three. Volts are rms: peak over 1.41 for a sine. " +
      "Above 25 V rms leave the work to licensed people, by your local code.",
    fault: numbers(["Hz", "ms", "V rms"], Number.MIN_VALUE),
    arises: withBursts,
  },
  {
    name: "receiver",
    asks: "Receiver: steps at how many volts, time constant in ms?",
    usual: usualReceiver,
    help: "Turn the drive down until steps are missed; the circuit tells R times C.",
    fault: numbers(["V", "ms"], Number.MIN_VALUE),
    arises: withBursts,
  },
  {
    name: "counter",
    asks: "Counter: gate, pause, smallest step, trigger noise, all in s?",
    usual: usualCounter,
    help: "Its manual: gate time, dead time, resolution. Trigger noise is volts of noise over slope.",
    fault(text) {
      const [gate] = numbersOf(text);
      const fault = numbers(["s", "s", "s", "s"])(text);
      return fault ?? (gate! > 0 ? null : "give a gate above 0 s");
    },
    arises: always,
  },
  {
    name: "timebase",
    asks: "Its time base: room quartz, oven, or the standard itself?",
    usual: usually("quartz"),
    help: "One of quartz, oven, standard. To find out how far it is off count the standard itself.",
    fault: oneOf(["quartz", "oven", "standard"]),
    arises: always,
  },
  {
    name: "swing",
    asks: "How far does the room's temperature swing in a day, in K?",
    usual: usually("3"),
    help: "From lowest to highest, by a thermometer that keeps both.",
    fault: numbers(["K"]),
    arises: always,
  },
];
