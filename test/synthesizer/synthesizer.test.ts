import { describe, expect, it } from "vitest";
import type { NoiseLevels } from "../../src/noise/index.ts";
import { mostSteps, PowerLawProcess } from "../../src/noise/index.ts";
import { RandomStream } from "../../src/numeric/index.ts";
import type { SynthesizerParameters } from "../../src/stages/synthesizer/index.ts";
import { rmsJitter, Synthesizer } from "../../src/stages/synthesizer/index.ts";

const silent: NoiseLevels = {
  whitePmRms: 0,
  h1: 0,
  h0: 0,
  hMinus1: 0,
  hMinus2: 0,
  bandwidthHz: 2.5,
  flickerLongest: 1e8,
};
const natural = 2 * Math.PI * 1.5;
const quiet: SynthesizerParameters = {
  outputHz: 5,
  settingStepHz: 0,
  loop: { naturalHz: 1.5, damping: 0.8, comparisonHz: 1e5 },
  noise: silent,
  phaseDetectorWhite: 0,
  spurs: [],
};

/** A synthesizer on a reference, both from one seed. */
function build(seed: string, parameters: SynthesizerParameters, levels: NoiseLevels) {
  const reference = new PowerLawProcess(levels, 0.01, new RandomStream(seed, "reference"));
  const stream = new RandomStream(seed, "synthesizer");
  const edges = new RandomStream(seed, "synthesizer/edges");
  const synthesizer = new Synthesizer(parameters, reference, 0.01, stream, edges);
  const step = (dt: number) => {
    reference.advance(dt);
    synthesizer.follow(dt);
  };
  const row = new Float64Array(1);
  /** Time error of the output at the last step; u is nominal time, for spurs alone. */
  const output = (u = 0) => {
    synthesizer.timeErrors(Float64Array.of(u), row);
    return row[0]!;
  };
  return { reference, synthesizer, step, output };
}

describe("Synthesizer", () => {
  it("follows many steps at once as it follows them one by one", () => {
    const parameters = {
      ...quiet,
      noise: { ...silent, whitePmRms: 1e-6, h1: 1e-12, h0: 1e-11, hMinus1: 1e-12 },
      phaseDetectorWhite: 1e-14,
      spurs: [{ frequencyHz: 0.7, timeAmplitude: 1e-5 }],
    };
    // A reference so noisy that the loop follows terms of it one by one.
    const levels = { ...silent, h1: 1e-12, h0: 1e-11, hMinus1: 1e-11, hMinus2: 1e-14 };
    const singly = build("rows", parameters, levels);
    const inRows = build("rows", parameters, levels);
    expect(singly.reference.path.rates.length).toBeGreaterThan(0);
    const nominals = new Float64Array(mostSteps);
    const row = new Float64Array(mostSteps);
    for (const [dt, steps] of [
      [0.2, 30],
      [0.2, 1],
      [0.6, 4],
    ] as const) {
      nominals.forEach((_, i) => {
        nominals[i] = 10 + dt * i;
      });
      inRows.reference.advance(dt, steps);
      inRows.synthesizer.follow(dt);
      inRows.synthesizer.timeErrors(nominals, row);
      for (let i = 0; i < steps; i++) {
        singly.step(dt);
        expect(row[i]).toBe(singly.output(nominals[i]));
      }
    }
  });

  it.each([
    ["white FM", { ...silent, h0: 2 }, 0, 1 / (4 * 0.8 * natural)],
    [
      "random-walk FM",
      { ...silent, hMinus2: 1 / (2 * Math.PI ** 2) },
      0,
      1 / (4 * 0.8 * natural ** 3),
    ],
    ["detector noise", silent, 1, (natural / 2) * (0.8 + 1 / 3.2)],
  ])(
    "has the jitter of theory for %s, which does not grow",
    (name, noise, phaseDetectorWhite, variance) => {
      // q/(4ζω), q/(4ζω³), S·B_L: Gardner, Phaselock Techniques, from memory.
      const { output, step } = build(name, { ...quiet, noise, phaseDetectorWhite }, silent);
      for (const dt of [1, 1e4]) {
        let sum = 0;
        for (let i = 0; i < 10000; i++) {
          step(dt);
          sum += output() ** 2;
        }
        // 10000 samples apart by many loop times: σ of the rms is 0.7 %, 3 % is 4.2 σ.
        expect(Math.abs(Math.sqrt(sum / 10000 / variance) - 1)).toBeLessThan(0.03);
      }
    },
  );

  it("starts in the state it stays in, with the jitter of theory", () => {
    const noise = { ...silent, hMinus1: 1e-12, hMinus2: 1e-14, h1: 1e-14 };
    const parameters = { ...quiet, noise };
    let sum = 0;
    for (let i = 0; i < 600; i++) {
      const { output, step } = build(`start ${i}`, parameters, silent);
      // A step so short that the loop stands where it began.
      step(0.01);
      sum += output() ** 2 / 600;
    }
    // 600 squares: σ = √(2/600) = 5.8 %, 4 σ. Held to the integral of the spectrum in rms-jitter.test.ts.
    expect(Math.abs(sum / rmsJitter(parameters, silent).oscillator ** 2 - 1)).toBeLessThan(0.23);
  });

  it("passes its reference's white FM through H: increments of the output by their spectrum", () => {
    const { output, step, reference } = build("follow", quiet, { ...silent, h0: 2 });
    const dt = 0.05;
    let sum = 0;
    let own = 0;
    step(dt);
    let x = output();
    let r = reference.accumulated;
    const n = 40000;
    for (let i = 0; i < n; i++) {
      step(dt);
      const next = output();
      sum += (next - x) ** 2 / n;
      own += (reference.accumulated - r) ** 2 / n;
      x = next;
      r = reference.accumulated;
    }
    // var = ∫ |H|²·h₀/(2πf)²·4·sin²(πf·dt) df, midpoint rule.
    let theory = 0;
    for (let i = 0; i < 200000; i++) {
      const f = (i + 0.5) * 1e-3;
      const s = (f / 1.5) ** 2;
      const passed = (1 + 2.56 * s) / ((1 - s) ** 2 + 2.56 * s);
      theory +=
        ((passed * 2 * 4 * Math.sin(Math.PI * f * dt) ** 2) / (2 * Math.PI * f) ** 2) * 1e-3;
    }
    // Increments hang together over some 0.2 s, 4 steps: about 10000 free ones, σ 1.4 % in variance; 4 σ.
    expect(Math.abs(sum / theory - 1)).toBeLessThan(0.056);
    expect(theory / dt).toBeLessThan(0.7);
    // The reference itself keeps h₀/2 a second: σ √(2/40000) = 0.7 %; 4 σ.
    expect(Math.abs(own / dt - 1)).toBeLessThan(0.028);
  });

  it("has the jitter of theory with all noises at once, though it leaves some of them out", () => {
    const own = { ...silent, h0: 1, hMinus1: 1, flickerLongest: 1e3 };
    const levels = { ...own, hMinus2: 0.1, h1: 0.01, whitePmRms: 3 };
    const parameters = { ...quiet, noise: own, phaseDetectorWhite: 0.1 };
    const { synthesizer, output, reference, step } = build("all", parameters, levels);
    let sum = 0;
    const n = 12000;
    for (let i = 0; i < n; i++) {
      step(3e3);
      sum += (output() - reference.accumulated) ** 2 / n;
    }
    expect(synthesizer.leftOut.length).toBeGreaterThan(3);
    // Sums of squares of the parts: rms-jitter.test.ts. σ of the rms √(1/24000) = 0.7 %; 3 % is 4.6 σ.
    expect(Math.abs(Math.sqrt(sum) / rmsJitter(parameters, levels).total - 1)).toBeLessThan(0.03);
  });

  it("leaves a reference that it follows perfectly as it is without a loop", () => {
    const levels = { ...silent, h0: 1e-20, hMinus1: 1e-20, bandwidthHz: 5e6 };
    const noise = { ...levels, h0: 1e-10, hMinus1: 1e-10 };
    const { reference, step } = build("alone", { ...quiet, noise }, levels);
    const alone = new PowerLawProcess(levels, 0.01, new RandomStream("alone", "reference"));
    for (let i = 0; i < 50; i++) {
      step(0.2);
      alone.advance(0.2);
    }
    expect(reference.accumulated).toBe(alone.accumulated);
  });

  it("has white PM of its own edges, and spurs, at its output", () => {
    const edges = build("edge", { ...quiet, noise: { ...silent, whitePmRms: 3 } }, silent);
    let square = 0;
    for (let i = 0; i < 4000; i++) {
      edges.step(10);
      square += edges.output() ** 2 / 4000;
    }
    // What the detector sees of them comes back a hundred times weaker. σ of the rms 1.1 %, 4 σ.
    expect(Math.abs(Math.sqrt(square) / 3 - 1)).toBeLessThan(0.045);
    const spurs = [{ frequencyHz: 0.25, timeAmplitude: 100 }];
    const { step, output } = build("spur", { ...quiet, spurs }, silent);
    step(1);
    expect(Math.hypot(output(1) - output(3), output(2) - output(0))).toBeCloseTo(200, 9);
  });

  it("throws RangeError where the reference made another step, or is too coarse", () => {
    const { reference, synthesizer } = build("order", quiet, silent);
    reference.advance(0.2);
    expect(() => synthesizer.follow(0.1)).toThrow(
      /dt must be the reference's last step 0.2 s, got 0.1/,
    );
    const coarse = new PowerLawProcess(silent, 50, new RandomStream("s", "reference"));
    const make = () => new Synthesizer(quiet, coarse, 50, new RandomStream("s", "synthesizer"));
    expect(make).toThrow(/reference must be made for steps down to 1.06/);
  });
});
