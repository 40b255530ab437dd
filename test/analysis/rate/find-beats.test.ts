import { describe, expect, it } from "vitest";
import { findBeats } from "../../../src/judgement/index.ts";
import { makeEdges, normalStream } from "./power-law-noise.ts";

describe("findBeats", () => {
  it("takes a pure sinusoid out whole, whatever line it rides on", () => {
    const x = Float64Array.from({ length: 500 }, (_, i) => 7 + 0.3 * i + Math.cos(0.2 * i + 1));
    const first = findBeats(x)[0]!;
    expect(first.beats[0]!.frequency).toBeCloseTo(0.2 / (2 * Math.PI), 5);
    expect(first.beats[0]!.power).toBeCloseTo(0.5, 2);
    expect(first.remainder).toBeLessThan(1e-3);
  });

  it("finds two beats in noise, strongest first", () => {
    const normal = normalStream("two beats");
    const x = Float64Array.from(
      { length: 1000 },
      (_, i) => 2 * Math.sin(0.05 * i) + Math.sin(0.9 * i + 2) + normal(),
    );
    const both = findBeats(x)[1]!;
    const [slow, fast] = both.beats;
    expect(slow!.frequency).toBeCloseTo(0.05 / (2 * Math.PI), 4);
    expect(fast!.frequency).toBeCloseTo(0.9 / (2 * Math.PI), 4);
    // Total variance 2 + 1/2 + 1, of which the noise's 1 remains; 5 % is 1.1 of its standard deviations.
    expect(both.remainder).toBeCloseTo(1 / 3.5, 1);
  });

  it("finds a beat in a record longer than it searches point by point", () => {
    const normal = normalStream("long");
    const x = Float64Array.from({ length: 20000 }, (_, i) => Math.sin(0.01 * i) + normal());
    const [beat] = findBeats(x)[0]!.beats;
    expect(beat!.frequency).toBeCloseTo(0.01 / (2 * Math.PI), 5);
    expect(beat!.power).toBeCloseTo(0.5, 1);
  });

  it("finds none in white PM: at most 2 of 60 records", () => {
    let found = 0;
    for (let s = 0; s < 60; s++) {
      found +=
        findBeats(makeEdges(100, { measurement: 1 }, `none ${s}`).measured).length > 0 ? 1 : 0;
    }
    expect(found).toBeLessThanOrEqual(2);
  });

  it("throws RangeError for fewer than eight samples", () => {
    expect(() => findBeats(new Float64Array(7))).toThrow(/at least 8/);
  });
});
