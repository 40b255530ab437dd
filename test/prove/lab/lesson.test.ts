import { describe, it } from "vitest";
import { Bench } from "../../../src/lab/index.ts";
import { demos, holdAnswers, randomScenarios } from "../../lab/lesson/lesson-cases.ts";
import { readLesson, sentences } from "../../lab/lesson/read-lesson.ts";
import { demo } from "../../page/lesson-file.ts";

const seeds = (count: number) => Array.from({ length: count }, (_, i) => `seed ${i}`);

describe("the lesson over many seeds", () => {
  it.each(demos)("has the same right answers over 200 seeds of %s", async (name) => {
    await holdAnswers(new Bench(demo(name)), seeds(200));
  });

  it.each(demos)("reads well over 50 seeds of %s", async (name) => {
    await readLesson(new Bench(demo(name)), seeds(50));
  });

  // READ_LESSON=1 prints each sentence once.
  it("reads well of twenty scenarios that nobody wrote", async () => {
    for (const scenario of randomScenarios(20)) await readLesson(new Bench(scenario), seeds(2));
    if (process.env.READ_LESSON) console.log([...sentences].sort().join("\n"));
  });
});
