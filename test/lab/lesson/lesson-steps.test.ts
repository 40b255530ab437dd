import { describe, expect, it } from "vitest";
import type { Settings } from "../../../src/lab/index.ts";
import {
  Bench,
  defaultSettings,
  lessonSteps,
  paceOf,
  readingDigits,
  type Task,
  tasks,
} from "../../../src/lab/index.ts";
import { toMarkup } from "../../../src/view/chart/index.ts";
import { demo } from "../../page/lesson-file.ts";

const pace = paceOf(
  () => false,
  () => {},
);
const demos = [
  "observatory",
  "harbour-tide-gauge",
  "observatory-own-oscillator",
  "school-laboratory",
  "station-dial",
  "synthesizer-direct",
];

/** What a step shows of a demo. */
async function shownOf(name: string, id: string, change: Partial<Settings> = {}) {
  const bench = new Bench(demo(name));
  const step = lessonSteps({ scenario: bench.lesson, title: "" }).find((one) => one.id === id)!;
  const settings = { ...defaultSettings("steps-1"), ...change };
  const answer = await (tasks[step.task] as Task<typeof step.task>)(
    bench,
    step.ask(settings),
    pace,
  );
  return { step, shown: step.show(answer, settings), answer };
}

describe("the steps of the lesson", () => {
  it.each(demos)("say something of %s in words, picture and table", async (name) => {
    const { lesson } = new Bench(demo(name));
    for (const { id, choices } of lessonSteps({ scenario: lesson, title: "" })) {
      const { shown } = await shownOf(name, id);
      expect(shown.words, id).not.toMatch(/NaN|Infinity|undefined|null/);
      expect(choices[shown.right!], id).toBeDefined();
      expect(shown.table.rows.length, id).toBeGreaterThan(0);
      expect(new Set(shown.table.rows.map((row) => row.length)), id).toEqual(
        new Set([shown.table.head.length]),
      );
      for (const picture of shown.pictures) {
        expect(toMarkup(picture({ title: "", idPrefix: "a", width: 320 }))).toMatch(/^<svg/);
      }
    }
  });

  // The laws of white phase noise: back to back, a gate of ten periods scatters a tenth, and the mean of K
  // gates is K times surer (Rubiola 2005); so the predictions have one right answer.
  it("find the laws of white phase noise in the plainest clock", async () => {
    const right = async (id: string, change?: Partial<Settings>) => {
      const { step, shown } = await shownOf("school-laboratory", id, change);
      return step.choices[shown.right!];
    };
    expect(await right("period")).toBe("by more than a minute a day");
    expect(await right("stages")).toBe("the reference oscillator");
    expect(await right("gate")).toBe("it falls to about a tenth");
    expect(await right("many")).toBe("K times");
  });

  it("tell no answer where the settings are not those of the question", async () => {
    expect((await shownOf("school-laboratory", "many", { dead: "yes" })).shown.right).toBeNull();
    expect((await shownOf("school-laboratory", "many", { edge: "kept" })).shown.right).toBeNull();
    expect(
      (await shownOf("school-laboratory", "stages", { off: "counter" })).shown.right,
    ).toBeNull();
  });

  it("say once what holds of all three estimates", async () => {
    const { shown } = await shownOf("observatory", "many", { count: "40" });
    const notes = shown.table.rows.map((row) => row.at(-1)!);
    expect(new Set(notes).size).toBe(notes.length);
    expect(notes.join("; ")).not.toContain("holds still");
    expect(shown.table.caption).toMatch(/^The rate by three ways/);
  });

  it("underline no digit of a period that is shorter than the jitter it is read with", async () => {
    // 10 MHz, read with 5 µs of trigger noise at each end: √2 · 5 µs, of 100 readings known to 7 %, and cut below at 0.
    const { shown } = await shownOf("reference-direct", "period");
    const { value, uncertainty, decimals } = shown.reading!;
    expect(uncertainty).toBeGreaterThan(3e-6);
    expect(uncertainty).toBeLessThan(9e-6);
    expect(readingDigits(value, uncertainty, decimals).count).toBe(0);
  });

  it("write large numbers as people do, without the e of programs", async () => {
    const { shown: gate } = await shownOf("school-laboratory", "gate", { gate: "100" });
    const { shown: many } = await shownOf("school-laboratory", "many", { count: "160" });
    for (const { words, table } of [gate, many]) {
      expect(words).toMatch(/ \d{2,3} times (less|surer)/);
      expect([words, ...table.rows.flat()].join("\n")).not.toMatch(/\de[+-]\d/);
    }
  });

  it("name no mean where none is drawn", async () => {
    const { shown } = await shownOf("observatory", "period");
    const markup = toMarkup(shown.pictures[0]!({ title: "", idPrefix: "a" }));
    expect(markup).toContain(">Single readings<");
    expect(markup).not.toContain("running mean");
  });
});
