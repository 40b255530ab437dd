import { describe, expect, it } from "vitest";
import { linearTransition } from "../../src/numeric/index.ts";
import {
  type LoopGroup,
  loopEntries,
  loopGains,
  loopStep,
} from "../../src/stages/synthesizer/index.ts";

const gains = loopGains({ naturalHz: 1.5, damping: 0.8 });
const { proportional, integral } = gains;
const entries = loopEntries(gains);
const group = (time: number, diffusion: number, entry: LoopGroup["entry"], isTime = false) => ({
  timeConstants: Float64Array.of(time),
  diffusions: Float64Array.of(diffusion),
  entry,
  makesReferenceTime: isTime,
});
const groups = [
  group(0.4, 2, entries.referenceRate, true),
  group(Infinity, 0.3, entries.referenceRate, true),
  group(0.1, 0.5, entries.referencePhase),
  group(30, 1.5, entries.ownRate),
];
const white = { referenceLevel: 0.8, ownLevel: 0.4, detectorDensity: 0.02 };

/** The same loop as one linear system of (four processes, x, e, z), written down apart. */
function wholeSystem(dt: number) {
  const n = 7;
  const drift = new Float64Array(n * n);
  const diffusion = new Float64Array(n * n);
  groups.forEach((g, k) => {
    drift[k * n + k] = -1 / g.timeConstants[0]!;
    drift[4 * n + k] = g.makesReferenceTime ? 1 : 0;
    drift[5 * n + k] = g.entry.onError;
    drift[6 * n + k] = g.entry.onIntegrator;
    diffusion[k * n + k] = g.diffusions[0]!;
  });
  drift.set([-proportional, -1], 5 * n + 5);
  drift.set([integral, 0], 6 * n + 5);
  // Unit white sources: reference (x and e), own oscillator (e), detector (e and z).
  const sources = [
    [Math.sqrt(0.4), Math.sqrt(0.4), 0],
    [0, -Math.sqrt(0.2), 0],
    [0, -proportional * 0.1, integral * 0.1],
  ];
  for (const source of sources) {
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) {
        const at = (4 + i) * n + 4 + j;
        diffusion[at] = diffusion[at]! + source[i]! * source[j]!;
      }
    }
  }
  return { n, ...linearTransition(drift, diffusion, n, dt) };
}

/** What a process draws for its own time error: weight of the end values, variance given them. */
const drawn = (time: number, diffusion: number, dt: number) =>
  time === Infinity
    ? { weight: dt / 2, residual: (diffusion * dt ** 3) / 12, decay: 1 }
    : {
        weight: time * Math.tanh(dt / 2 / time),
        residual: diffusion * time ** 3 * (dt / time - 2 * Math.tanh(dt / 2 / time)),
        decay: Math.exp(-dt / time),
      };

describe("loopStep", () => {
  it.each([0.02, 0.2, 3, 1000])("has the Gaussian of the whole linear system over %s s", (dt) => {
    const { n, transition, covariance } = wholeSystem(dt);
    const own = groups.map((g) => drawn(g.timeConstants[0]!, g.diffusions[0]!, dt));
    const pooled = own[0]!.residual + own[1]!.residual + 0.4 * dt;
    const { factors: f, groupFactors } = loopStep(gains, groups, white, pooled, dt);
    const scale = (i: number, j: number) =>
      Math.sqrt(covariance[i * n + i]! * covariance[j * n + j]!);
    const check = (value: number, i: number, j: number) =>
      expect(Math.abs(value - covariance[i * n + j]!) / scale(i, j)).toBeLessThan(1e-11);

    let ee = f[4]! ** 2 * pooled + f[6]! ** 2;
    let ez = f[4]! * f[5]! * pooled + f[6]! * f[7]!;
    let zz = f[5]! ** 2 * pooled + f[7]! ** 2 + f[8]! ** 2;
    let xe = f[4]! * pooled;
    let xz = f[5]! * pooled;
    groups.forEach((g, k) => {
      const [startE, startZ, endE, endZ] = groupFactors[k] as unknown as [
        number,
        number,
        number,
        number,
      ];
      const spread = covariance[k * n + k]!;
      const { weight, decay } = own[k]!;
      ee += endE ** 2 * spread;
      ez += endE * endZ * spread;
      zz += endZ ** 2 * spread;
      xe += g.makesReferenceTime ? weight * endE * spread : 0;
      xz += g.makesReferenceTime ? weight * endZ * spread : 0;
      check(endE * spread, k, 5);
      check(endZ * spread, k, 6);
      expect(startE + endE * decay).toBeCloseTo(transition[5 * n + k]!, 10);
      expect(startZ + endZ * decay).toBeCloseTo(transition[6 * n + k]!, 10);
    });
    check(ee, 5, 5);
    check(ez, 5, 6);
    check(zz, 6, 6);
    check(xe, 4, 5);
    check(xz, 4, 6);
    expect(f[0]!).toBeCloseTo(transition[5 * n + 5]!, 12);
    expect(f[2]!).toBeCloseTo(transition[6 * n + 5]!, 12);
  });

  it("without noise is the transition of the loop alone", () => {
    const none = { referenceLevel: 0, ownLevel: 0, detectorDensity: 0 };
    const { factors } = loopStep(gains, [], none, 0, 0.1);
    expect([...factors.subarray(4)]).toEqual([0, 0, 0, 0, 0]);
    expect(factors[0]!).toBeGreaterThan(0);
  });

  it.each([
    // Damping, overshoot, ωt of its peak; frequency step: peak over Δω/ω, its ωt (Gardner, from memory, recomputed).
    [0.5, 0.29844, 2.4184, 0.54629, 1.2092],
    [Math.SQRT1_2, 0.20788, 2.2214, 0.45594, 1.1107],
  ])(
    "answers steps of its input as a second-order loop, ζ = %s",
    (damping, overshoot, at, peak, peakAt) => {
      const natural = 2 * Math.PI * 1.5;
      const free = loopGains({ naturalHz: 1.5, damping });
      const none = { referenceLevel: 0, ownLevel: 0, detectorDensity: 0 };
      const factorsAt = (turns: number) => loopStep(free, [], none, 0, turns / natural).factors;
      // e = 1 at first after a step of phase, and the output is 1 − e; z = −1 after a step of rate.
      expect(-factorsAt(at)[0]!).toBeCloseTo(overshoot, 5);
      expect(-factorsAt(peakAt)[1]! * natural).toBeCloseTo(peak, 5);
    },
  );
});
