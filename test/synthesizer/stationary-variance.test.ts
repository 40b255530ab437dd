import { describe, expect, it } from "vitest";
import { linearTransition } from "../../src/numeric/index.ts";
import {
  loopGains,
  loopNoiseBandwidth,
  relaxationVariance,
  whiteVariance,
} from "../../src/stages/synthesizer/index.ts";

const loop = { naturalHz: 1.5, damping: 0.8 };
const gains = loopGains(loop);
const natural = 2 * Math.PI * 1.5;
const { proportional, integral } = gains;

describe("whiteVariance", () => {
  it("is q/(4ζω) for white FM of the oscillator (Gardner, Phaselock Techniques, from memory)", () => {
    const variance = whiteVariance(gains, { ee: 3, ez: 0, zz: 0 }).ee;
    expect(Math.abs(variance / (3 / (4 * 0.8 * natural)) - 1)).toBeLessThan(1e-12);
  });

  it("is q/(4ζω³) for random-walk FM of the oscillator (Gardner, from memory)", () => {
    const variance = whiteVariance(gains, { ee: 0, ez: 0, zz: 3 }).ee;
    expect(Math.abs(variance / (3 / (4 * 0.8 * natural ** 3)) - 1)).toBeLessThan(1e-12);
  });

  it("is S·B_L for white time noise of one-sided density S (Gardner, from memory)", () => {
    const variance = whiteVariance(gains, {
      ee: proportional * proportional,
      ez: -proportional * integral,
      zz: integral * integral,
    }).ee;
    expect(Math.abs(variance / (2 * loopNoiseBandwidth(0.8, natural)) - 1)).toBeLessThan(1e-12);
  });
});

describe("relaxationVariance", () => {
  it.each([
    [1e-3, 1, 0],
    [0.2, -1, 0],
    [50, 1, 0],
    [0.2, -proportional, integral],
  ])(
    "is where a long exact step of the linear system ends, T = %s s, entry %s, %s",
    (time, onError, onIntegrator) => {
      const { covariance: long } = linearTransition(
        Float64Array.of(-1 / time, 0, 0, onError, -proportional, -1, onIntegrator, integral, 0),
        Float64Array.of((2 * 1.7) / time, 0, 0, 0, 0, 0, 0, 0, 0),
        3,
        1e4,
      );
      const got = relaxationVariance(gains, time, 1.7, onError, onIntegrator);
      const sd = [0, 4, 8].map((at) => Math.sqrt(long[at]!));
      const differences = [
        (got.errorInput - long[1]!) / (sd[0]! * sd[1]!),
        (got.integratorInput - long[2]!) / (sd[0]! * sd[2]!),
        got.covariance.ee / long[4]! - 1,
        (got.covariance.ez - long[5]!) / (sd[1]! * sd[2]!),
        got.covariance.zz / long[8]! - 1,
      ];
      for (const difference of differences) {
        expect(Math.abs(difference)).toBeLessThan(1e-8);
      }
    },
  );
});
