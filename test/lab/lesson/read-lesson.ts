import { expect } from "vitest";
import { type Bench, lessonSteps, type Settings, trialObstacle } from "../../../src/lab/index.ts";
import { shownOf } from "./lesson-cases.ts";

/** What must not stand in any sentence of the page. */
export const wrong: readonly RegExp[] = [
  /NaN|Infinity|undefined|null|\[object/,
  /\de[+-]?\d/, // numbers as programs write them
  /[a-z]_[a-z]/, // keys of a scenario's file
  /(?<!m)s\/day|µs\/day|s a day/, // one unit throughout
  /\d\(\d+\)/, // digits in parentheses
  / {2}| [,.;]|\.\.|^\s|\s$/,
  /(?<![\d.])1 (readings|runs|ticks|periods|gates|days|edges)\b/,
  /\b0 ms\/day (fast|slow)|(gains|loses) 0 /,
  /No trial: .*\bno trial\b/i,
  /(^|[^.]) 0 times|1\.0 times/,
  /stray|astray|set apart|fallback|beat\b|jitter/,
  /first and last edge|fitted line|mean of the readings/, // one name for an estimator
];

/** Settings under which a step is read. */
const variants: Readonly<Record<string, readonly Partial<Settings>[]>> = {
  chain: [{}],
  period: [{}, { periods: "12" }, { periods: "100" }],
  stages: [{}, { off: "reference", look: "10" }, { off: "receiver,counter", look: "50" }],
  gates: [{}],
  draw: [{}, { said: "draw.1-0.5-0.2-0.1-0.05-0.02-0.01" }],
  averaging: [{}],
  long: [{}, { within: "1e-12" }, { within: "1 s/month" }],
  burst: [{}, { burst: "20", span: "burst" }],
  loss: [{}, { lost: "0.5" }, { lost: "1" }],
};

const said: Readonly<Record<string, readonly string[]>> = {
  draw: ["1-1-1-1-1-1-1", "1-0.7-0.4-0.3-0.2-0.15-0.1", "1-0.5-0.2-0.1-0.05-0.02-0.01", ""],
};

/** Every text of a step under its settings: words, verdicts, captions and cells. */
async function textsOf(bench: Bench, id: string, seed: string): Promise<string[]> {
  const texts: string[] = [];
  for (const change of variants[id]!) {
    const { step, shown, answer } = await shownOf(bench, id, seed, change);
    const { question } = step;
    const answers =
      said[id] ??
      (question.kind === "choice"
        ? question.choices.map((_, i) => `${i}`)
        : question.kind === "amount"
          ? question.values.map(String)
          : []);
    texts.push(step.title, step.intro, question.text, shown.words, shown.table.caption);
    texts.push(...shown.table.head, ...shown.table.rows.flat().filter((cell) => cell !== ""));
    texts.push(...answers.flatMap((one) => shown.grade?.(one).words ?? []));
    if (shown.reading) texts.push(shown.reading.label);
    if ("ways" in answer) texts.push(...answer.ways.flatMap((way) => trialObstacle(way) ?? []));
  }
  return texts;
}

/** Every sentence read so far: for a reader's eye. */
export const sentences = new Set<string>();

/**
 * Reads all steps of a lesson, and holds every text to the patterns that must not occur.
 *
 * @param bench - what it is about
 * @param some - seeds
 */
export async function readLesson(bench: Bench, some: readonly string[]): Promise<void> {
  for (const { id } of lessonSteps({ scenario: bench.lesson, title: "" })) {
    if (id === "hundred") continue;
    // Theory alone: nothing of it hangs on the seed.
    const isTheory = id === "averaging" || id === "long";
    for (const seed of isTheory ? some.slice(0, 1) : some) {
      for (const text of await textsOf(bench, id, seed)) {
        for (const pattern of wrong) expect(text, `${id}, ${seed}`).not.toMatch(pattern);
        sentences.add(`${id}: ${text}`);
      }
    }
  }
}
