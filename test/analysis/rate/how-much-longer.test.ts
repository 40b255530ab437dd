import { describe, expect, it } from "vitest";
import { dialAhead, howMuchLonger, rateCandidates, sourceAllanVariance, sourcePredictionVariance } from "../../../src/judgement/index.ts";
import { backToBackRecord } from "./coverage-harness.ts";

const record = (noise: object, seed: string) => backToBackRecord(2000, noise, seed).readings;
const length = 2000 * 10;

describe("howMuchLonger", () => {
  const jitter = record({ measurement: 1 }, "longer");

  it("under white PM: twice the length for half the width from end to end, 2^(2/3) by the line", () => {
    for (const [i, times] of [
      [1, 2],
      [2, 2 ** (2 / 3)],
    ] as const) {
      const now = howMuchLonger(jitter, 1)[i]!.now;
      const { reachable, further, limitedBy } = howMuchLonger(jitter, now / 2)[i]!;
      expect(reachable).toBe(true);
      expect(limitedBy).toBe("measurement");
      // White FM too weak to be seen may stand behind the measurement's noise: some more than needed.
      expect(further / length).toBeGreaterThan(0.99 * (times - 1));
      expect(further / length).toBeLessThan(1.3 * (times - 1));
    }
  });

  it("under flicker PM: twice the length for half the width by the line too, which averages but a few octaves", () => {
    const found = rateCandidates(jitter);
    const candidates = found.candidates.map((c) => {
      const [first] = c.noise.hypotheses;
      const alone = { ...first!, source: "none" as const, whitePm: 0, flickerPm: 1, beats: [] };
      const hypotheses = [{ ...alone, ratio: 0, probability: 1 }];
      return { ...c, noise: { ...c.noise, hypotheses } };
    });
    const all = { ...found, candidates };
    const now = howMuchLonger(jitter, 1, 0, all)[2]!.now;
    expect(howMuchLonger(jitter, now / 2, 0, all)[2]!.further / length).toBeCloseTo(1, 3);
  });

  it("is there already where the width is less than wanted", () => {
    expect(howMuchLonger(jitter, 1).map((l) => l.further)).toEqual([0, 0, 0]);
  });

  it("never gets below the systematic bound, and says so", () => {
    for (const l of howMuchLonger(jitter, 1e-9, 2e-9)) {
      expect([l.reachable, l.further, l.limitedBy]).toEqual([
        false,
        Number.POSITIVE_INFINITY,
        "systematic_bound",
      ]);
    }
  });

  it("never gets below the flicker floor, and says so", () => {
    const floor = record({ measurement: 1, flickerFm: 1 }, "floor");
    const ends = howMuchLonger(floor, 1e-8)[1]!;
    expect([ends.reachable, ends.limitedBy]).toEqual([false, "flicker_fm"]);
    // 1.96·√(2 ln 2)·1e-7 = 2.3e-7, within a factor of 1.5.
    expect(Math.abs(Math.log(ends.best / 2.3e-7))).toBeLessThan(Math.log(1.5));
  });

  it("under white FM: four times the length for half the width", () => {
    const free = record({ whiteFm: 1 }, "free");
    const now = howMuchLonger(free, 1)[1]!.now;
    const further = howMuchLonger(free, now / 2)[1]!.further;
    expect(further / length).toBeCloseTo(3, 1);
  });

  it("throws RangeError for a width that is not positive", () => {
    expect(() => howMuchLonger(jitter, 0)).toThrow(/within must be > 0/);
  });
});

describe("sourcePredictionVariance", () => {
  const hypothesis = (source: "white_fm" | "flicker_fm" | "random_walk_fm") => ({
    source,
    drift: false,
    ratio: 3,
    level: 2,
    degreesOfFreedom: 9,
    probability: 1,
    visible: true,
    beats: [],
    whitePm: 1,
    flickerPm: 0,
    logLikelihood: 0,
    driftEstimate: 0,
    driftUncertainty: 0,
  });

  it.each(["white_fm", "flicker_fm", "random_walk_fm"] as const)(
    "is twice the Allan variance for equal spans of %s",
    (source) => {
      const h = hypothesis(source);
      expect(sourcePredictionVariance(h, 40, 40)).toBeCloseTo(2 * sourceAllanVariance(h, 40), 8);
    },
  );

  it("of white FM adds the variances of both means", () => {
    expect(sourcePredictionVariance(hypothesis("white_fm"), 10, 40)).toBeCloseTo(
      6 / 10 + 6 / 40,
      12,
    );
  });
});

describe("dialAhead", () => {
  it("carries the rate on, with √2 × Allan deviation × time under white FM", () => {
    const ends = dialAhead(record({ whiteFm: 1 }, "ahead"), length)[1]!;
    const half = (ends.interval95[1] - ends.interval95[0]) / 2;
    const known = 1.96 * 1e-7 * Math.sqrt(2 / 2000) * length;
    expect(Math.abs(half / known - 1)).toBeLessThan(0.1);
    expect(Math.abs(ends.gain - 2e-6 * length)).toBeLessThan(2 * known);
  });

  it("holds what the dial then gains in 95 % of runs under white FM and random-walk FM", () => {
    for (const noise of [{ whiteFm: 1 }, { measurement: 1, randomWalkFm: 0.1 }]) {
      let held = 0;
      for (let s = 0; s < 60; s++) {
        // The first two thirds are the run, what follows is what the dial does.
        const { readings, truth } = backToBackRecord(300, noise, `then ${s}`);
        if (readings.kind !== "period") throw new Error("expected periods");
        const run = {
          ...readings,
          period: readings.period.slice(0, 200),
          cycles: readings.cycles.slice(0, 200),
        };
        const gained = truth[300]! - truth[200]!;
        const ends = dialAhead(run, 1000)[1]!;
        held += ends.interval95[0] <= gained && gained <= ends.interval95[1] ? 1 : 0;
      }
      // 57 expected of 60; fewer than 50 by chance: 1e-3.
      expect(held).toBeGreaterThanOrEqual(50);
    }
  });

  it("carries a drift on", () => {
    const drift = 1e-3;
    const ends = dialAhead(record({ measurement: 1, drift }, "drift ahead"), length)[1]!;
    // Mean rate of the run at its middle; a run's length later the rate has grown by 2000 steps.
    const expected = (2e-6 + 1e-7 * drift * 1000 + 1e-7 * drift * 2000) * length;
    expect(Math.abs(ends.gain / expected - 1)).toBeLessThan(0.02);
    expect(ends.fromDrift).toBeCloseTo(1e-7 * drift * 2000 * length, 4);
  });

  it("throws RangeError for no time ahead", () => {
    expect(() => dialAhead(record({ measurement: 1 }, "no"), 0)).toThrow(/after must be > 0/);
  });
});
