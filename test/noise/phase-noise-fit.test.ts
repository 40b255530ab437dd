import { describe, expect, it } from "vitest";
import { fitPhaseNoise, missOf, rateDensityOf } from "../../src/noise/index.ts";

const carrier = 10e6;
/** L(f) of levels h₂ to h₋₂, worked from the definitions of IEEE Std 1139: S_φ = (ν₀/f)²·S_y, L = S_φ/2. */
const pointsOf = (levels: readonly number[], offsets: readonly number[]) =>
  offsets.map((f) => {
    const rate = levels.reduce((sum, h, j) => sum + h * f ** (2 - j), 0);
    return { f, level: 10 * Math.log10((rate * (carrier / f) ** 2) / 2) };
  });

describe("phase noise to power laws", () => {
  // By hand from IEEE Std 1139 (from memory): −120 dBc/Hz is S_φ = 2e-12; at 10 Hz of 10 MHz S_y = 1e-12·2e-12 = 2e-24.
  it("turns −120 dBc/Hz at 10 Hz from 10 MHz into S_y = 2e-24/Hz", () => {
    expect(rateDensityOf(-120, 10, 10e6) / 2e-24).toBeCloseTo(1, 12);
  });

  // White FM of 1e-11 at 1 s is h0 = 2e-22 (σ² = h0/2τ); at 1 Hz from 10 MHz S_φ = 2e-22·1e14 = 2e-8, L = −80 dBc/Hz.
  it("turns −80 dBc/Hz at 1 Hz, falling by 20 dB a decade, into white FM of 1e-11 at 1 s", () => {
    const points = [1, 10, 100].map((f) => ({ f, level: -80 - 20 * Math.log10(f) }));
    const levels = fitPhaseNoise(points, 10e6);
    expect(Math.sqrt(levels[2] / 2) / 1e-11).toBeCloseTo(1, 9);
    expect([levels[0], levels[1], levels[3], levels[4]]).toEqual([0, 0, 0, 0]);
  });

  it.each([0, 1, 2, 3, 4])("gives back law %i alone", (law) => {
    const levels = [0, 0, 0, 0, 0];
    levels[law] = 1e-24;
    const found = fitPhaseNoise(pointsOf(levels, [0.1, 1, 10, 100, 1000]), carrier);
    found.forEach((level, j) => {
      expect(level / 1e-24).toBeCloseTo(j === law ? 1 : 0, 6);
    });
  });

  it("gives back a sum of all five", () => {
    const levels = [1e-28, 1e-26, 8e-24, 1e-23, 1e-24];
    const found = fitPhaseNoise(pointsOf(levels, [0.01, 0.1, 1, 10, 100, 1000, 10000]), carrier);
    found.forEach((level, j) => {
      expect(level / levels[j]!).toBeCloseTo(1, 6);
    });
  });

  // A brute force outside: no small change of a level in use brings the points nearer, in the measure that is fitted.
  it("fits best in the measure it says, and no point of a curve rounded to 5 dB is missed by more than 3 dB", () => {
    const points = [-90, -120, -140, -145, -150].map((level, i) => ({ f: 10 ** i, level }));
    const levels = fitPhaseNoise(points, carrier);
    const distance = (tried: typeof levels) =>
      points.reduce((sum, point) => {
        const ratio = 10 ** (-missOf(tried, point, carrier) / 10);
        return sum + ratio - 1 - Math.log(ratio);
      }, 0);
    for (const [j, level] of levels.entries()) {
      for (const factor of [0.99, 1.01]) {
        const tried = levels.with(j, level === 0 ? levels[1] * 1e-3 : level * factor);
        expect(distance(tried as unknown as typeof levels)).toBeGreaterThan(distance(levels));
      }
    }
    for (const point of points) expect(Math.abs(missOf(levels, point, carrier))).toBeLessThan(3);
  });
});
