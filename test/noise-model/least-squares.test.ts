import { describe, expect, it } from "vitest";
import { ladder, leastSquares, toEvents } from "../../src/noise-model/index.ts";
import { dense } from "./dense.ts";
import { shapes } from "./ragged.ts";

const levels = { pm: 1, wfm: 0.3, ffm: 0.02, rw: 0.0004 };

describe("leastSquares", () => {
  for (const [name, record] of Object.entries(shapes)) {
    it(`equals dense generalised least squares with the full covariance: ${name}`, () => {
      const { events, timeUnit, phaseUnit, slope } = toEvents(record);
      const times = ladder(1, events.duration);
      const fit = leastSquares(events, levels, times);
      // The same levels and ladder in the units of the record.
      const p2 = phaseUnit * phaseUnit;
      const inRecord = {
        pm: levels.pm * p2,
        wfm: (levels.wfm * p2) / timeUnit,
        ffm: (levels.ffm * p2) / timeUnit ** 2,
        rw: (levels.rw * p2) / timeUnit ** 3,
      };
      const exact = dense(
        record,
        inRecord,
        times.map((t) => t * timeUnit),
      );
      const unit = phaseUnit / timeUnit;
      const sd = Math.sqrt(exact.slopeVariance);
      expect(Math.abs(slope + fit.steady.value * unit - exact.slope) / sd).toBeLessThan(1e-9);
      expect((fit.steady.variance * unit ** 2) / exact.slopeVariance).toBeCloseTo(1, 9);
      expect(Math.abs(slope + fit.overRun.value * unit - exact.overRun) / sd).toBeLessThan(1e-9);
      expect((fit.overRun.variance * unit ** 2) / exact.overRunVariance).toBeCloseTo(1, 9);
      expect(fit.squares / exact.squares).toBeCloseTo(1, 9);
      expect(fit.degrees).toBe(exact.degrees);
    });
  }

  it("has the restricted likelihood of brute force, up to a constant of the record", () => {
    const record = shapes["gaps of known and of unknown cycles"]!;
    const { events, timeUnit } = toEvents(record);
    const times = ladder(1, events.duration);
    const difference = [
      { pm: 1, wfm: 0, ffm: 0, rw: 0 },
      { pm: 1, wfm: 2, ffm: 0.1, rw: 0 },
      { pm: 0.01, wfm: 1, ffm: 0, rw: 0.01 },
    ].map((level) => {
      const wfm = level.wfm / timeUnit;
      const exact = dense(
        record,
        { ...level, wfm, ffm: level.ffm / timeUnit ** 2, rw: level.rw / timeUnit ** 3 },
        times.map((t) => t * timeUnit),
      );
      const brute = -0.5 * (exact.logDeterminants + exact.degrees * Math.log(exact.squares));
      return leastSquares(events, level, times).logLikelihood - brute;
    });
    expect(difference[1]! - difference[0]!).toBeCloseTo(0, 8);
    expect(difference[2]! - difference[0]!).toBeCloseTo(0, 8);
  });
});
