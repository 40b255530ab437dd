import { describe, expect, it } from "vitest";
import {
  closedLoopResponse,
  errorResponse,
  loopGains,
  loopNoiseBandwidth,
} from "../../src/stages/synthesizer/index.ts";

// Values from memory of Gardner, Phaselock Techniques, found again by computation.
describe("loopNoiseBandwidth", () => {
  it("is ω/2 at ζ = ½ and 0.53033 ω at ζ = 0.7071", () => {
    expect(loopNoiseBandwidth(0.5, 6)).toBe(3);
    expect(loopNoiseBandwidth(Math.SQRT1_2, 1)).toBeCloseTo(0.53033, 5);
  });

  it("is the integral of |H|²", () => {
    const loop = { naturalHz: 2, damping: 0.8 };
    let sum = 0;
    const n = 200000;
    for (let i = 0; i < n; i++) {
      // f = 2·tan: the whole axis, by the midpoint rule.
      const angle = ((i + 0.5) * Math.PI) / 2 / n;
      const f = 2 * Math.tan(angle);
      sum += (closedLoopResponse(loop, f) * 2 * (Math.PI / 2 / n)) / Math.cos(angle) ** 2;
    }
    expect(sum / loopNoiseBandwidth(0.8, 4 * Math.PI)).toBeCloseTo(1, 8);
  });
});

describe("closedLoopResponse", () => {
  it.each([
    [0.5, 1.8174],
    [Math.SQRT1_2, 2.0582],
  ])("is ½ at ζ = %s, %s times the natural frequency", (damping, times) => {
    expect(closedLoopResponse({ naturalHz: 3, damping }, 3 * times)).toBeCloseTo(0.5, 4);
  });

  it("and errorResponse are |H|² and |1 − H|² of H = (2ζωs + ω²)/(s² + 2ζωs + ω²) at s = iΩ", () => {
    const loop = { naturalHz: 1.5, damping: 0.3 };
    const { proportional, integral } = loopGains(loop);
    for (const f of [0.1, 1.4, 20]) {
      const w = 2 * Math.PI * f;
      const below = (integral - w * w) ** 2 + (proportional * w) ** 2;
      const passed = (integral ** 2 + (proportional * w) ** 2) / below;
      expect(closedLoopResponse(loop, f) / passed).toBeCloseTo(1, 13);
      expect(errorResponse(loop, f) / (w ** 4 / below)).toBeCloseTo(1, 13);
    }
  });

  it("passes everything at 0 Hz, where errorResponse leaves nothing", () => {
    const loop = { naturalHz: 1.5, damping: 0.3 };
    expect(closedLoopResponse(loop, 0)).toBe(1);
    expect(errorResponse(loop, 0)).toBe(0);
  });
});

describe("loopGains", () => {
  it.each([0, -1, Number.NaN])("throws RangeError for damping %s", (damping) => {
    expect(() => loopGains({ naturalHz: 1, damping })).toThrow(/damping must be > 0/);
  });
});
