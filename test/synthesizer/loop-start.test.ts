import { describe, expect, it } from "vitest";
import { RelaxationBank } from "../../src/noise/index.ts";
import {
  type LoopGroup,
  loopEntries,
  loopGains,
  loopStart,
  loopStep,
} from "../../src/stages/synthesizer/index.ts";

const gains = loopGains({ naturalHz: 1.5, damping: 0.8 });
const entries = loopEntries(gains);
const white = { referenceLevel: 0.8, ownLevel: 0.4, detectorDensity: 0.02 };
const none = { referenceLevel: 0, ownLevel: 0, detectorDensity: 0 };

/** One process as a group, its bank holding the value 1. */
function single(time: number, diffusion: number, entry: LoopGroup["entry"]) {
  const bank = new RelaxationBank(
    Float64Array.of(time),
    Float64Array.of(diffusion),
    Float64Array.of(1),
  );
  const group: LoopGroup = {
    timeConstants: bank.timeConstants,
    diffusions: bank.diffusions,
    entry,
    makesReferenceTime: false,
  };
  return { bank, group };
}

/** Covariance (ee, ez, zz) of L·g. */
const square = (a: number, b: number, c: number) => [a * a, a * b, b * b + c * c];

describe("loopStart", () => {
  it.each([
    [0.02, entries.referenceRate],
    [0.5, entries.ownRate],
    [40, entries.ownRate],
    [0.5, entries.ownPhase],
  ])("is a state that an exact step leaves as it is: T = %s s, entry %o", (time, entry) => {
    const { bank, group } = single(time, 2, entry);
    for (const dt of [0.01, 0.7]) {
      const { mean, root } = loopStart(gains, [group], white, [bank]);
      const { factors: f, groupFactors } = loopStep(gains, [group], white, 0, dt);
      const [c0e, c0z, c1e, c1z] = groupFactors[0] as unknown as [number, number, number, number];
      const decay = Math.exp(-dt / time);
      const spread = -0.5 * 2 * time * Math.expm1((-2 * dt) / time);
      const v = time;
      const [ree, rez, rzz] = square(root[0]!, root[2]!, root[3]!) as [number, number, number];
      // (e, z) after the step as sums over y₀ and independent rests.
      const [me, mz] = [mean[0]!, mean[1]!];
      const onE = c0e + c1e * decay + f[0]! * me + f[1]! * mz;
      const onZ = c0z + c1z * decay + f[2]! * me + f[3]! * mz;
      const [lee, lez, lzz] = square(f[6]!, f[7]!, f[8]!) as [number, number, number];
      const after = [
        onE ** 2 * v +
          f[0]! ** 2 * ree +
          2 * f[0]! * f[1]! * rez +
          f[1]! ** 2 * rzz +
          c1e ** 2 * spread +
          lee,
        onE * onZ * v +
          f[0]! * f[2]! * ree +
          (f[0]! * f[3]! + f[1]! * f[2]!) * rez +
          f[1]! * f[3]! * rzz +
          c1e * c1z * spread +
          lez,
        onZ ** 2 * v +
          f[2]! ** 2 * ree +
          2 * f[2]! * f[3]! * rez +
          f[3]! ** 2 * rzz +
          c1z ** 2 * spread +
          lzz,
        onE * decay * v + c1e * spread,
        onZ * decay * v + c1z * spread,
      ];
      const before = [me * me * v + ree, me * mz * v + rez, mz * mz * v + rzz, me * v, mz * v];
      const scale = [before[0]!, Math.sqrt(before[0]! * before[2]!), before[2]!];
      scale.push(Math.sqrt(before[0]! * v), Math.sqrt(before[2]! * v));
      after.forEach((value, i) => {
        expect(Math.abs(value - before[i]!) / scale[i]!).toBeLessThan(1e-11);
      });
    }
  });

  it("holds a random walk in the integrator, with the error q/(4ζω³) (Gardner, from memory)", () => {
    const { bank, group } = single(Infinity, 3, entries.ownRate);
    const { mean, root } = loopStart(gains, [group], none, [bank]);
    expect([...mean]).toEqual([0, -1]);
    const natural = 2 * Math.PI * 1.5;
    expect(root[0]! ** 2 / (3 / (4 * 0.8 * natural ** 3))).toBeCloseTo(1, 12);
  });

  it("is nothing without noise", () => {
    const { mean, root } = loopStart(gains, [], none, []);
    expect([...mean, ...root]).toEqual([0, 0, 0, 0, 0, 0]);
  });
});
