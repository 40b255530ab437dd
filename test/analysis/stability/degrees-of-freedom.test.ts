import { describe, expect, it } from "vitest";
import type { NoiseType } from "../../../src/analysis/index.ts";
import { degreesOfFreedom, type StabilityStatistic } from "../../../src/analysis/index.ts";
import { checksLike, typeOfExponent } from "./reference-sets.ts";

const overlappingChecks = checksLike(/^edf\.N\d+,m\d+,a/).map((check) => {
  const [, n, m, alpha] = /^edf\.N(\d+),m(\d+),a(-?\d)$/.exec(check.id)!;
  return { ...check, samples: Number(n), m: Number(m), type: typeOfExponent(Number(alpha)) };
});

describe("degreesOfFreedom", () => {
  // Independent covariance sums after Greenhall and Riley, PTTI 2003.
  it.each(overlappingChecks)(
    "agrees with the independent covariance sum $computed for $id",
    (check) => {
      const edf = degreesOfFreedom("overlapping_allan", check.type, check.samples, check.m);
      expect(Math.abs(edf / check.computed! - 1)).toBeLessThan(1e-3);
    },
  );

  // NIST TN 1337, Table 12-4: closed forms, which lie near the exact values, those of flicker PM not so near.
  it.each(overlappingChecks)(
    "lies near the published approximation $published for $id ($source)",
    (check) => {
      const edf = degreesOfFreedom("overlapping_allan", check.type, check.samples, check.m);
      const apart = check.type === "flicker_pm" ? 0.3 : 0.15;
      expect(Math.abs(check.published! / edf - 1)).toBeLessThan(apart);
    },
  );

  const exactChecks = checksLike(/^edf\.exact\./).map((check) => {
    const [, name, alpha] = /^edf\.exact\.(.*),alpha(-?\d)\.m1$/.exec(check.id)!;
    const statistic = {
      "AVAR overlapping": "overlapping_allan",
      MVAR: "modified_allan",
      "HVAR overlapping": "overlapping_hadamard",
    }[name!] as StabilityStatistic;
    return { ...check, statistic, type: typeOfExponent(Number(alpha)) };
  });
  it.each(exactChecks)("is $computed: $quantity ($source)", ({ statistic, type, computed }) => {
    expect(Math.abs(degreesOfFreedom(statistic, type, 1001, 1) / computed! - 1)).toBeLessThan(1e-6);
  });

  // Greenhall and Riley, PTTI 2003, evaluated independently: N = 1001 and m = 1, 10, 100; printed digits.
  it.each<[StabilityStatistic, NoiseType, number[]]>([
    ["modified_allan", "white_pm", [514.0, 123.9, 9.93]],
    ["modified_allan", "white_fm", [666.2, 95.1, 7.41]],
    ["modified_allan", "flicker_fm", [880, 92.7, 7.2]],
    ["modified_allan", "random_walk_fm", [888, 75.1, 5.73]],
    ["overlapping_hadamard", "white_pm", [432.3, 423.2, 334.4]],
    ["overlapping_hadamard", "white_fm", [513.5, 123.8, 9.92]],
    ["overlapping_hadamard", "flicker_fm", [634.5, 98.0, 7.71]],
    ["overlapping_hadamard", "random_walk_fm", [781.2, 94.5, 7.4]],
  ])("of %s under %s is %j at N = 1001", (statistic, type, expected) => {
    for (const [k, m] of [1, 10, 100].entries()) {
      const edf = degreesOfFreedom(statistic, type, 1001, m);
      expect(Math.abs(edf / expected[k]! - 1)).toBeLessThan(1.5e-3);
    }
  });

  it("is one for a single term", () => {
    for (const type of ["white_pm", "flicker_pm", "random_walk_fm"] as const) {
      expect(degreesOfFreedom("overlapping_allan", type, 21, 10)).toBe(1);
      expect(degreesOfFreedom("allan", type, 21, 10)).toBe(1);
      expect(degreesOfFreedom("modified_allan", type, 30, 10)).toBe(1);
      expect(degreesOfFreedom("overlapping_hadamard", type, 31, 10)).toBe(1);
    }
  });

  it("is M/[1 + (1 − 1/M)/8] for M terms side by side under random-walk FM", () => {
    // Second differences of |t|³ at lag 0 and m: 8 and 2, so ρ₁ = 1/4 and none beyond (own algebra).
    expect(degreesOfFreedom("allan", "random_walk_fm", 1001, 10)).toBeCloseTo(
      99 / (1 + (2 * (1 - 1 / 99)) / 16),
      9,
    );
  });

  it("thins lags without loss: m = 1000, N = 20001 agrees with the full sum", () => {
    // White FM, overlapping: ρ(u) = 1 − 3u/2 for u <= 1, u/2 − 1 for 1 <= u <= 2 (own algebra from −|t|).
    const m = 1000;
    const terms = 20001 - 2 * m;
    let sum = 1;
    for (let j = 1; j < 2 * m; j++) {
      const u = j / m;
      const rho = u <= 1 ? 1 - (3 * u) / 2 : u / 2 - 1;
      sum += 2 * (1 - j / terms) * rho * rho;
    }
    const edf = degreesOfFreedom("overlapping_allan", "white_fm", 20001, m);
    expect(Math.abs(edf / (terms / sum) - 1)).toBeLessThan(2e-4);
  });

  it("throws RangeError naming m where no term fits", () => {
    expect(() => degreesOfFreedom("overlapping_allan", "white_fm", 20, 10)).toThrow(/m must be/);
    expect(() => degreesOfFreedom("hadamard", "white_fm", 30, 10)).toThrow(/3m < N/);
  });
});
