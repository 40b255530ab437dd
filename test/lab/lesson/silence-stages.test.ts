import { describe, expect, it } from "vitest";
import {
  lessonScenario,
  noisyStages,
  paceOf,
  recordRun,
  silenceStages,
  spreadOf,
} from "../../../src/lab/index.ts";
import { demo } from "../../page/lesson-file.ts";

const pace = paceOf(
  () => false,
  () => {},
);

describe("silenceStages", () => {
  // Exact case: a chain without any noise reads its truth, to within rounding of a stamp (1e-15 s a period).
  it.each(["observatory", "harbour-tide-gauge", "school-laboratory"])(
    "leaves nothing random in %s when all stages are off",
    async (name) => {
      const lesson = lessonScenario(demo(name));
      const quiet = silenceStages(lesson, noisyStages(lesson));
      const record = await recordRun(quiet, "quiet", { readings: 50 }, pace);
      expect(spreadOf(quiet, record).rms).toBeLessThan(1e-14);
    },
  );

  it("changes nothing where no stage is off, and each stage alone only itself", () => {
    const lesson = lessonScenario(demo("observatory"));
    expect(silenceStages(lesson, [])).toBe(lesson);
    const quiet = silenceStages(lesson, ["receiver"]);
    expect(quiet).toEqual({ ...lesson, receiver: { ...lesson.receiver, noiseV: 0 } });
  });
});

describe("noisyStages", () => {
  it("names the stages that the counter looks through", () => {
    const stages = (name: string) => noisyStages(lessonScenario(demo(name)));
    expect(stages("observatory")).toEqual([
      "reference",
      "synthesizer",
      "drive",
      "receiver",
      "counter",
      "time base",
    ]);
    expect(stages("synthesizer-direct")).not.toContain("receiver");
    expect(stages("station-dial")).not.toContain("time base");
    expect(stages("reference-direct")).toEqual(["reference", "counter", "time base"]);
  });
});
