import { describe, expect, it } from "vitest";
import { leftOut, lessonScenario, paceOf, recordRun, withGate } from "../../../src/lab/index.ts";
import { demo } from "../../page/lesson-file.ts";

const pace = paceOf(
  () => false,
  () => {},
);

describe("withGate", () => {
  // Exact case: whatever the jitter, a gate of n periods holds n cycles.
  it.each([1, 2, 10, 50])("holds %s periods in every reading", async (periods) => {
    const scenario = withGate(lessonScenario(demo("observatory")), periods);
    const { cycles } = await recordRun(scenario, "gate", { readings: 20 }, pace);
    expect([...cycles]).toEqual(new Array(20).fill(periods));
  });

  it("leaves one period between readings with dead time", async () => {
    const lesson = lessonScenario(demo("observatory"));
    const period = 1 / lesson.clock.tickHz;
    const { start } = await recordRun(
      withGate(lesson, 5, period / 2),
      "gate",
      { readings: 9 },
      pace,
    );
    for (let i = 1; i < start.length; i++) {
      expect((start[i]! - start[i - 1]!) / period).toBeCloseTo(6, 1);
    }
  });
});

describe("lessonScenario", () => {
  it("leaves out all that goes wrong, and nothing of the noise", () => {
    const scenario = demo("station-dial");
    const lesson = lessonScenario(scenario);
    expect(lesson.disturbances).toEqual([]);
    expect(lesson.drive).toEqual({ ...scenario.drive, dropProbability: 0 });
    expect(lesson.reference).toBe(scenario.reference);
    expect(lesson.synthesizer).toBe(scenario.synthesizer);
    expect(lesson.receiver!.noiseV).toBe(scenario.receiver!.noiseV);
    expect(lesson.counter).toMatchObject({ technique: "reciprocal", gate: "single", deadTime: 0 });
  });

  it("names what it leaves out, and nothing where it shows all", () => {
    expect(leftOut(demo("station-dial"))).toEqual([
      "its 4 disturbances",
      "the way its counter counts, for one that times whole periods",
    ]);
    expect(leftOut(demo("observatory"))).toEqual([]);
  });
});
