import { describe, expect, it } from "vitest";
import {
  Bench,
  lessonSteps,
  type Settings,
  trialObstacle,
  trialWords,
} from "../../../src/lab/index.ts";
import { demo } from "../../page/lesson-file.ts";
import { demos, randomScenarios, shownOf } from "./lesson-cases.ts";

/** How many seeds; LESSON_SEEDS=50 reads them all, and prints every sentence once with LESSON_PRINT. */
const seeds = Array.from(
  { length: Number(process.env.LESSON_SEEDS ?? 3) },
  (_, i) => `reader-${i}`,
);

/** What must not stand in any sentence of the page. */
const wrong: readonly RegExp[] = [
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

async function read(bench: Bench, some: readonly string[]): Promise<void> {
  for (const { id } of lessonSteps({ scenario: bench.lesson, title: "" })) {
    if (id === "hundred") continue;
    // Theory alone: nothing of it hangs on the seed.
    const isTheory = id === "averaging" || id === "long";
    for (const seed of isTheory ? some.slice(0, 1) : some) {
      for (const text of await textsOf(bench, id, seed)) {
        for (const pattern of wrong) expect(text, `${id}, ${seed}`).not.toMatch(pattern);
        if (process.env.LESSON_PRINT) printed.add(`${id}: ${text}`);
      }
    }
  }
}

const printed = new Set<string>();

describe("the sentences of the lesson", { timeout: 600_000 }, () => {
  it.each(demos)("read well over several seeds of %s", async (name) => {
    await read(new Bench(demo(name)), seeds);
  });

  it("read well of scenarios that nobody wrote", async () => {
    for (const scenario of randomScenarios(20)) await read(new Bench(scenario), ["reader"]);
    if (process.env.LESSON_PRINT) console.log([...printed].sort().join("\n"));
  });

  it("read well of a trial that held and of one that did not", () => {
    const trial = { rate: 2e-8, longRun: 1e-8, length: 3600, readings: 1 };
    const tally = { held: 1, all: 1 };
    for (const within of [1e-7, 1e-9]) {
      const text = trialWords(trial, within, tally);
      for (const pattern of wrong) expect(text).not.toMatch(pattern);
    }
  });
});
