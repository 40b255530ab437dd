import { describe, expect, it } from "vitest";
import { estimateVariance } from "../../src/planning/index.ts";
import { beatNoise, delaySwing } from "../../src/stages/receiver/index.ts";
import type { Line, NoiseShape } from "../../src/theory/index.ts";

/** Delay to the next zero of a tone of 1 ms: a sawtooth of the phase, without any scatter. */
const tone = 1e-3;
const points = 2048;
const sawtooth = {
  mean: Float64Array.from({ length: points }, (_, i) => tone * (1 - (i + 0.5) / points)),
  variance: new Float64Array(points),
};
const turns = 1370.0 * Math.SQRT2;

const linesOf = (jitterTurns: number): readonly Line[] => {
  const shape = beatNoise(sawtooth, turns, 1, jitterTurns).find(
    (term) => term.shape.type === "lines",
  )?.shape as Extract<NoiseShape, { type: "lines" }>;
  return shape.lines;
};

describe("beatNoise", () => {
  it("has the spread of plain gating, T/√12, and T/√6 between two far ends", () => {
    const lines = linesOf(0);
    const variance = lines.reduce((sum, line) => sum + line.variance, 0);
    expect(Math.sqrt(variance) / tone).toBeCloseTo(1 / Math.sqrt(12), 6);
    // Averaged over run lengths: 0.3527 s/day at both ends of 100 s, T = 1 ms (86400·T/(√6·100 s)).
    let sum = 0;
    for (let n = 1; n <= 2000; n++) {
      const ends = { kind: "line", stamps: 2, spacing: n } as const;
      sum += (estimateVariance(ends, { type: "lines", lines }) * n * n) / 2000;
    }
    expect((86400 * Math.sqrt(sum)) / 100).toBeCloseTo(0.3527, 2);
  });

  it("has a fundamental of amplitude T/π, less by e^{−2π²s²} under s turns of jitter", () => {
    // s = 0.2: 0.144 T; 0.3: 0.054 T, own derivation confirmed by drawing (0.146, 0.056); 0: T/π.
    const amplitude = (s: number) => Math.sqrt(2 * linesOf(s)[0]!.variance) / tone;
    expect(amplitude(0)).toBeCloseTo(1 / Math.PI, 6);
    expect(amplitude(0.2)).toBeCloseTo(0.1445, 3);
    expect(amplitude(0.3)).toBeCloseTo(0.0539, 3);
  });

  it("keeps the whole variance whatever the jitter", () => {
    for (const s of [0, 0.1, 1]) {
      let sum = 0;
      for (const { shape } of beatNoise(sawtooth, turns, 1, s)) {
        if (shape.type === "white") sum += shape.variance;
        if (shape.type === "lines") for (const line of shape.lines) sum += line.variance;
      }
      expect(Math.sqrt(sum) / tone).toBeCloseTo(1 / Math.sqrt(12), 6);
    }
  });

  it("puts the lines where harmonics of the tone fold to at the rate of the ticks", () => {
    // 1000.01 Hz against 5 bursts a second: a beat of 0.01 Hz (period 100 s).
    const [first] = beatNoise(sawtooth, 1000.01 / 5, 1 / 5, 0).map(({ shape }) =>
      shape.type === "lines" ? shape.lines[0]!.frequency : Number.NaN,
    );
    expect(first).toBeCloseTo(0.01, 9);
  });

  it("passes on the scatter about the mean, and gives no line for a mean without phase", () => {
    const flat = { mean: [0.008, 0.008, 0.008], variance: [1e-8, 3e-8, 2e-8] };
    const terms = beatNoise(flat, turns, 1, 0);
    expect(terms).toHaveLength(1);
    expect((terms[0]!.shape as { variance: number }).variance).toBeCloseTo(2e-8, 20);
  });
});

describe("delaySwing", () => {
  it.each([
    [1000.01, 5, 1],
    [440, 2.9999, 3],
    [1000, 2.4999, 1],
  ])("is what delays of plain gating show, %f Hz and %f Hz", (toneHz, rateHz, q) => {
    // Delay of burst n to the next upward zero of the tone, projected on the beat over whole beats: T/(πq).
    const beatHz = q * toneHz - Math.round((q * toneHz) / rateHz) * rateHz;
    const bursts = Math.round((40 * rateHz) / Math.abs(beatHz));
    let re = 0;
    let im = 0;
    for (let n = 0; n < bursts; n++) {
      const t = n / rateHz;
      const angle = 2 * Math.PI * beatHz * t;
      re += (1 - ((toneHz * t) % 1)) * Math.cos(angle);
      im += (1 - ((toneHz * t) % 1)) * Math.sin(angle);
    }
    const shown = ((2 / bursts) * Math.hypot(re, im)) / toneHz;
    expect((shown * toneHz * tone) / delaySwing(sawtooth.mean, q)).toBeCloseTo(1, 2);
  });
});
