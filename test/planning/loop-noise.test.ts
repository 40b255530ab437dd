import { describe, expect, it } from "vitest";
import { loopNoise, outputDensity } from "../../src/stages/synthesizer/index.ts";
import { autocorrelationAt } from "../../src/theory/index.ts";
import { observatory } from "./scenario-of.ts";

const silent = { whitePmRms: 0, h1: 0, h0: 0, hMinus1: 0, hMinus2: 0 };

/** Synthesizer and reference with one noise each in turn. */
function alone(own: object, reference: object, detector = 0) {
  const scenario = observatory((changed) => {
    Object.assign(changed.synthesizer!.noise, silent, own);
    Object.assign(changed.reference.noise, silent, reference);
    changed.synthesizer!.phaseDetectorWhite = detector;
  });
  return { synthesizer: scenario.synthesizer!, levels: scenario.reference.noise };
}

const variance = ({ synthesizer, levels }: ReturnType<typeof alone>): number =>
  loopNoise(synthesizer, levels).reduce(
    (sum, { shape }) =>
      sum + (shape.type === "correlated" ? autocorrelationAt(shape.decays, 0) : 0),
    0,
  );

describe("loopNoise", () => {
  it("has the published variance q/(4ζω) for white FM of its oscillator, q = h0/2", () => {
    // Gardner, Phaselock Techniques (from memory, verified numerically).
    const omega = 2 * Math.PI * 1.5;
    expect(variance(alone({ h0: 2e-11 }, {})) / (1e-11 / (4 * 0.8 * omega))).toBeCloseTo(1, 9);
  });

  it.each([
    ["flicker FM of its oscillator", alone({ hMinus1: 1e-13, bandwidthHz: 1e3 }, {})],
    ["random-walk FM of its oscillator", alone({ hMinus2: 1e-13 }, {})],
    ["the phase detector", alone({}, {}, 1e-9)],
    ["white PM of the reference", alone({}, { whitePmRms: 1e-9 })],
  ])("has the integral of its spectrum for %s", (_, one) => {
    // ∫S_x df, Simpson's rule over ln f.
    const steps = 4000;
    const low = Math.log(1e-7);
    const high = Math.log(1e7);
    let sum = 0;
    for (let i = 0; i <= steps; i++) {
      const f = Math.exp(low + ((high - low) * i) / steps);
      const weight = i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2;
      sum += weight * f * outputDensity(one.synthesizer, one.levels, f);
    }
    const integral = (sum * (high - low)) / steps / 3;
    // The ladder of a flicker spectrum ripples by 0.1 %; its band is made wide here.
    expect(Math.abs(variance(one) / integral - 1)).toBeLessThan(5e-3);
  });

  it("leaves what the loop does not follow of the reference's white FM", () => {
    const omega = 2 * Math.PI * 1.5;
    const found = variance(alone({}, { h0: 2e-20 }));
    expect(found / (1e-20 / (4 * 0.8 * omega))).toBeCloseTo(1, 9);
  });

  it("says nothing where there is no noise, and lists spurs as lines", () => {
    expect(loopNoise(alone({}, {}).synthesizer, alone({}, {}).levels)).toEqual([]);
    const { synthesizer, levels } = alone({}, {});
    const spurs = [{ frequencyHz: 0.3, timeAmplitude: 2e-6 }];
    const [term] = loopNoise({ ...synthesizer, spurs }, levels);
    expect(term!.shape).toEqual({ type: "lines", lines: [{ frequency: 0.3, variance: 2e-12 }] });
  });
});
