import { describe, expect, it } from "vitest";
import {
  type EdgeEvents,
  ladder,
  leastSquares,
  lookBack,
  toEvents,
} from "../../src/noise-model/index.ts";
import { ragged, shapes } from "./ragged.ts";

const levels = { pm: 1, wfm: 0.3, ffm: 0.02, rw: 0.0004 };

/** The record with a fault at one event as a regressor of its own. */
function withFault(events: EdgeEvents, event: number, kind: "steps" | "stamps"): EdgeEvents {
  const values = new Float64Array(events.step.length);
  values[event] = 1;
  for (let k = event + 1; kind === "steps" && k < values.length && events.starts[k] === 0; k++) {
    values[k] = 1;
  }
  return { ...events, regressors: [...events.regressors, { values, overRun: 0 }] };
}

const records = { ...shapes, "blocks of means": ragged(600, () => ({})) };

describe("lookBack", () => {
  for (const [name, record] of Object.entries(records)) {
    it(`finds what the fault as one more regressor gives: ${name}`, () => {
      const { events } = toEvents(record, 300);
      const times = ladder(1, events.duration);
      const { fit, steps, stamps } = lookBack(events, levels, times);
      let checked = 0;
      for (const [kind, shifts] of Object.entries({ steps, stamps })) {
        shifts.size.forEach((size, k) => {
          if (shifts.information[k] === 0 || (k > 30 && k % 97 > 0)) return;
          const brute = leastSquares(withFault(events, k, kind as "steps"), levels, times);
          const p = events.regressors.length;
          const variance = brute.inverse[(p + 1) * (p + 1) - 1]!;
          const tolerance = 1e-8 * Math.sqrt(variance);
          expect(Math.abs(size - brute.coefficients[p]!)).toBeLessThan(tolerance);
          expect(shifts.information[k]! * variance).toBeCloseTo(1, 7);
          const onSteady = (fit.steady.value - brute.steady.value) / size;
          expect(shifts.onSteady[k]!).toBeCloseTo(onSteady, 7);
          const onRun = (fit.overRun.value - brute.overRun.value) / size;
          expect(shifts.onRun[k]!).toBeCloseTo(onRun, 7);
          checked++;
        });
      }
      expect(checked).toBeGreaterThan(10);
    });
  }
});
