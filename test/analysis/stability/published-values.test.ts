import { deviation, max, mean, median, min } from "d3-array";
import { describe, expect, it } from "vitest";
import {
  allanDeviation,
  hadamardDeviation,
  hadamardTotalDeviation,
  modifiedAllanDeviation,
  modifiedTotalDeviation,
  overlappingAllanDeviation,
  overlappingHadamardDeviation,
  timeDeviation,
  timeErrorFromRates,
  timeTotalDeviation,
  totalDeviation,
} from "../../../src/analysis/index.ts";
import { checksLike, lcgRates, means, nbsRates } from "./reference-sets.ts";

type Deviation = (x: Float64Array, tau0: number, m: number) => number;

/** Names of the statistics in the reference file; modified and time total are printed with the variance over 0.73. */
const statistics: Record<string, Deviation> = {
  allan: allanDeviation,
  overlapping_allan: overlappingAllanDeviation,
  modified_allan: modifiedAllanDeviation,
  time: timeDeviation,
  hadamard: hadamardDeviation,
  overlapping_hadamard: overlappingHadamardDeviation,
  total: totalDeviation,
  modified_total: (x, tau0, m) => modifiedTotalDeviation(x, tau0, m, 0.73),
  time_total: (x, tau0, m) => timeTotalDeviation(x, tau0, m, 0.73),
  hadamard_total: (x, tau0, m) => hadamardTotalDeviation(x, tau0, m, 0.995),
};

describe("the deviations on published data sets", () => {
  const records: Record<string, Float64Array> = {
    nbs9: timeErrorFromRates(nbsRates, 1),
    lcg1000: timeErrorFromRates(lcgRates, 1),
  };
  const names = Object.keys(statistics).join("|");
  it.each(checksLike(new RegExp(`^(nbs9|lcg1000)\\.(${names})\\.`)))(
    "$id is $expected ($source)",
    ({ id, expected, suggested_rel_tol }) => {
      const [set, statistic, m] = id.split(".") as [string, string, string];
      const value = statistics[statistic]!(records[set]!, 1, Number(m.slice(1)));
      expect(Math.abs(value / expected - 1)).toBeLessThan(suggested_rel_tol!);
    },
  );

  // NIST SP 1065, Table 30 (p. 107), m = 2, seven digits printed.
  it.each<[string, number]>([
    ["allan", 115.8082],
    ["overlapping_allan", 85.95287],
    ["modified_allan", 74.78849],
    ["time", 86.35831],
    ["hadamard", 116.798],
    ["overlapping_hadamard", 85.61487],
    ["total", 93.90379],
    ["modified_total", 75.83606],
    ["time_total", 87.56794],
    ["hadamard_total", 91.16396],
  ])("NBS 9-point set, m = 2, %s is %d (NIST SP 1065, Table 30)", (statistic, expected) => {
    const value = statistics[statistic]!(records.nbs9!, 1, 2);
    expect(Math.abs(value / expected - 1)).toBeLessThan(5e-7);
  });
});

describe("the published data sets", () => {
  // Moments by a general-purpose library, so that a slip in the sets themselves shows.
  const moments: Record<string, (y: Float64Array) => number | undefined> = {
    max: (y) => max(y),
    min: (y) => min(y),
    mean: (y) => mean(y),
    median: (y) => median(y),
    standard_deviation: (y) => deviation(y),
  };
  const sets: Record<string, Float64Array> = { nbs9: nbsRates, lcg1000: lcgRates };
  const names = Object.keys(moments).join("|");
  it.each(checksLike(new RegExp(`^(nbs9|lcg1000)\\.(${names})\\.`)))(
    "have $id = $expected ($source)",
    ({ id, expected, suggested_rel_tol }) => {
      const [set, moment, m] = id.split(".") as [string, string, string];
      const value = moments[moment]!(means(sets[set]!, Number(m.slice(1))))!;
      expect(Math.abs(value / expected - 1)).toBeLessThan(suggested_rel_tol!);
    },
  );

  it("begin as NIST SP 1065, section 12.4, says: 1234567890, 395529916, …", () => {
    expect([...lcgRates.slice(0, 4)].map((y) => Math.round(y * 2147483647))).toEqual([
      1234567890, 395529916, 1209410747, 633705974,
    ]);
  });
});
