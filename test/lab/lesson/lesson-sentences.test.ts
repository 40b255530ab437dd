import { describe, expect, it } from "vitest";
import { Bench, trialWords } from "../../../src/lab/index.ts";
import { demo } from "../../page/lesson-file.ts";
import { demos, randomScenarios } from "./lesson-cases.ts";
import { readLesson, wrong } from "./read-lesson.ts";

describe("the sentences of the lesson", () => {
  it.each(demos)("read well of %s", async (name) => {
    await readLesson(new Bench(demo(name)), ["reader"]);
  });

  it("read well of scenarios that nobody wrote", async () => {
    for (const scenario of randomScenarios(3)) await readLesson(new Bench(scenario), ["reader"]);
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
