import { describe, expect, it } from "vitest";
import { type NoiseType, noiseTypes, timeErrorFromRates } from "../../../src/analysis/index.ts";
import { identifyNoise } from "../../../src/judgement/index.ts";
import { RandomStream } from "../../../src/numeric/index.ts";
import { lcgRates } from "./reference-sets.ts";

/**
 * Time errors of a type by another way than the module's own simulation: white PM, its sum and the sum of that are
 * exact; flicker by the fractional-difference filter (Kasdin 1995) at twelve times the sampling rate, decimated.
 */
const timeErrors = (type: NoiseType, count: number, stream: RandomStream): Float64Array => {
  const fine = 12;
  const w = new Float64Array(count * fine);
  stream.fillNormal(w, 0, w.length);
  const order = { white_pm: 0, flicker_pm: 1, white_fm: 2, flicker_fm: 3, random_walk_fm: 4 }[type];
  let x = w;
  if (order % 2 === 1) {
    const h = new Float64Array(w.length).fill(1);
    for (let k = 1; k < h.length; k++) h[k] = (h[k - 1]! * (k - 0.5)) / k;
    x = w.map((_, i) => {
      let sum = 0;
      for (let k = 0; k <= i; k++) sum += h[k]! * w[i - k]!;
      return sum;
    });
  }
  for (let k = 0; k < Math.floor(order / 2); k++) x = timeErrorFromRates(x, 1).slice(1);
  return Float64Array.from({ length: count }, (_, i) => x[i * fine]! + 1e-3 * i);
};

describe("identifyNoise", () => {
  it("finds white FM in the 1000-point set of NIST SP 1065, a sequence of independent uniform deviates", () => {
    const fromRates = identifyNoise(lcgRates, "rate");
    expect(fromRates.best).toBe("white_fm");
    expect(fromRates.notRejected).toEqual(["white_fm"]);
    expect(identifyNoise(timeErrorFromRates(lcgRates, 1), "time_error").best).toBe("white_fm");
  });

  it.each<NoiseType>(["white_pm", "white_fm", "flicker_fm", "random_walk_fm"])(
    "names %s in 400 time errors made another way, and keeps it among those not rejected",
    (type) => {
      const x = timeErrors(type, 400, new RandomStream("four hundred", type));
      const found = identifyNoise(x, "time_error");
      expect(found.best).toBe(type);
      expect(found.notRejected).toContain(type);
    },
  );

  it.each<NoiseType>(["white_pm", "white_fm", "random_walk_fm"])(
    "keeps the true type %s in 95 %% of records of 20 values",
    (type) => {
      const stream = new RandomStream("coverage", type);
      let kept = 0;
      for (let k = 0; k < 400; k++) {
        const found = identifyNoise(timeErrors(type, 20, stream), "time_error");
        if (!found.mixed && found.notRejected.includes(type)) kept++;
      }
      // Binomial σ = 0.011, that of 999 simulated trials 0.01: 4σ = 0.06.
      expect(Math.abs(kept / 400 - 0.95)).toBeLessThan(0.06);
    },
  );

  it("leaves more types open in a short record than in a long one", () => {
    const x = timeErrors("white_fm", 300, new RandomStream("short and long", "white FM"));
    const short = identifyNoise(x.slice(0, 8), "time_error").notRejected.length;
    expect(short).toBeGreaterThan(identifyNoise(x, "time_error").notRejected.length);
  });

  it("is blind to a frequency offset and to scale", () => {
    const x = timeErrors("flicker_pm", 50, new RandomStream("offset", "x"));
    const shifted = x.map((v, i) => 1024 * v + 512 * i);
    expect(identifyNoise(shifted, "time_error").alpha).toBeCloseTo(
      identifyNoise(x, "time_error").alpha,
      7,
    );
  });

  it("does not tell phase from frequency noise across dead time", () => {
    const y = new Float64Array(200);
    new RandomStream("dead time", "rates").fillNormal(y, 0, 200);
    const found = identifyNoise(y, "rate", 1, 3);
    expect(found.best).toBe("white_fm");
    expect(found.notRejected).toEqual(expect.arrayContaining(["white_pm", "white_fm"]));
  });

  it("gives the two enclosing types for a long mixture", () => {
    // White PM of rms 1 on white FM of rms 0.5 a step: neither slope fits 4000 values.
    const stream = new RandomStream("mixture", "x");
    let walk = 0;
    const x = Float64Array.from({ length: 4000 }, () => {
      walk += 0.5 * stream.normal();
      return walk + stream.normal();
    });
    const found = identifyNoise(x, "time_error");
    expect(found.mixed).toBe(true);
    expect(found.notRejected).toHaveLength(2);
    expect(found.notRejected).toContain("flicker_pm");
  });

  it("says nothing about a constant or a very short record", () => {
    const nothing = { alpha: Number.NaN, best: null, notRejected: noiseTypes, mixed: false };
    expect(identifyNoise(new Float64Array(40), "rate")).toEqual(nothing);
    expect(identifyNoise(Float64Array.from([1, 5, 2, 4]), "rate")).toEqual(nothing);
  });

  it("gives the same answer every time, and throws RangeError for a wrong ratio", () => {
    const y = lcgRates.slice(0, 30);
    expect(identifyNoise(y, "rate")).toEqual(identifyNoise(y, "rate"));
    expect(() => identifyNoise(y, "rate", 1, 0.5)).toThrow(/deadTimeRatio must be >= 1/);
    expect(() => identifyNoise(y, "time_error", 1, 2)).toThrow(/deadTimeRatio/);
  });
});
