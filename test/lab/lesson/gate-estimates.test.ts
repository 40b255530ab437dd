import { describe, expect, it } from "vitest";
import { plainEstimates } from "../../../src/judgement/index.ts";
import {
  Bench,
  gateEstimates,
  gatesIn,
  gatesText,
  paceOf,
  recordRun,
  tasks,
  touchWords,
  withGate,
} from "../../../src/lab/index.ts";
import { runReadings } from "../../../src/planning/index.ts";
import type { PeriodReadings } from "../../../src/readings/index.ts";
import { demo } from "../../page/lesson-file.ts";

const pace = paceOf(
  () => false,
  () => {},
);

describe("gates on the timeline", () => {
  // Two ways to one number: gates laid over ticks that were stamped one by one, and the counter's own gates over the
  // same ticks, judged as the command line judges.
  it.each(["observatory", "school-laboratory"])(
    "give the rates that the counter's own gates give over the same ticks (%s)",
    async (name) => {
      // Without trigger noise, which a counter draws anew for each edge it looks at.
      const written = demo(name);
      const counter = { ...written.counter, triggerNoise: 0 };
      const bench = new Bench({ ...written, counter });
      const { late, period } = await tasks.ticks(bench, { seed: "line", count: 16 }, pace);
      const scenario = withGate(bench.lesson, 2);
      const record = await recordRun(scenario, "line", { readings: 8 }, pace);
      const judged = plainEstimates(runReadings(scenario, record) as PeriodReadings);
      const all = Array.from({ length: 8 }, (_, i) => [2 * i, 2 * i + 2] as const);
      const found = gateEstimates(all, late, period);
      for (const { method, rate } of judged) {
        // 17 stamps added up in another order: some ulps of a rate of 1e-3.
        expect(Math.abs(found[method] - rate)).toBeLessThan(1e-16);
      }
    },
  );

  // By hand: one tick late by 3 ms at the seam of two gates of 4 s.
  it("let the error of a shared tick cancel, and count both ticks of a hole", () => {
    const late = new Float64Array(17);
    late[4] = 3e-3;
    const touching = gateEstimates(
      [
        [0, 4],
        [4, 8],
      ],
      late,
      1,
    );
    expect(touching.mean_of_readings).toBe(0);
    expect(touching.end_to_end).toBe(0);
    const apart = gateEstimates(
      [
        [0, 4],
        [5, 9],
      ],
      late,
      1,
    );
    expect(apart.mean_of_readings).toBeCloseTo(-3e-3 / 8, 6);
  });

  it("say what a seam does", () => {
    expect(
      touchWords([
        [0, 4],
        [4, 8],
        [10, 13],
      ]),
    ).toBe(
      "A and B share tick 4; its error cancels. B and C are apart: ticks 8 and 10 both count.",
    );
  });

  it.each(["", "4-4", "0-5,4-8", "0-17", "x", "0-1,1-2,2-3,3-4,4-5,5-6,6-7"])(
    "are none in %j",
    (text) => {
      expect(gatesIn(text)).toBeNull();
    },
  );

  it("come back from their text", () => {
    expect(gatesText(gatesIn("0-4,4-8,10-13")!)).toBe("0-4,4-8,10-13");
  });
});
