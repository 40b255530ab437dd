import { Matrix } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { estimatorVariance, ladder, toEvents } from "../../src/noise-model/index.ts";
import { dense } from "./dense.ts";
import { shapes } from "./ragged.ts";

const levels = { pm: 1, wfm: 0.3, ffm: 0.02, rw: 0.0004 };

describe("estimatorVariance", () => {
  it("equals wᵀ·V·w with the full covariance of the readings", () => {
    for (const name of ["back to back", "dead time"]) {
      const record = shapes[name]!;
      const { events } = toEvents(record);
      const times = ladder(1, events.duration);
      const { covariance, duration } = dense(record, levels, times);
      // Any weights of the readings; as weights of the phases those of the edges that they lie between.
      const size = record.length.length;
      const ofReading = Float64Array.from({ length: size }, (_, i) => Math.cos(i) + 0.2);
      const weights = new Float64Array(events.step.length);
      let event = 0;
      ofReading.forEach((w, i) => {
        if (name === "dead time") weights[2 * i + 1] = w;
        else {
          event = i + 1;
          weights[event] = weights[event]! + w;
          if (i > 0) weights[i] = weights[i]! - w;
        }
      });
      const w = Matrix.columnVector([...ofReading]);
      const exact = w.transpose().mmul(covariance).mmul(w).get(0, 0);
      const { steady } = estimatorVariance(events, levels, times, weights);
      expect(steady / exact).toBeCloseTo(1, 9);
      expect(duration).toBeCloseTo(events.duration, 9);
    }
  });

  it("is that of white PM at both ends for the end-to-end slope about the rate over the run", () => {
    const { events } = toEvents(shapes["back to back"]!);
    const weights = new Float64Array(events.step.length);
    weights[weights.length - 1] = 1 / events.duration;
    const { overRun } = estimatorVariance(events, levels, ladder(1, events.duration), weights);
    expect(overRun / (2 / events.duration ** 2)).toBeCloseTo(1, 9);
  });
});
