import { describe, expect, it } from "vitest";
import { RandomStream } from "../../src/numeric/index.ts";
import { SpurLines } from "../../src/stages/synthesizer/index.ts";

const lines = (frequencyHz: number, seed = "spur") =>
  new SpurLines([{ frequencyHz, timeAmplitude: 2e-6 }], new RandomStream(seed, "synthesizer"));

describe("SpurLines", () => {
  it("have the rms A/√2 over their cycle and come back after one", () => {
    const spur = lines(0.25);
    let square = 0;
    for (let i = 0; i < 64; i++) {
      square += spur.at(i / 16) ** 2 / 64;
    }
    expect(Math.sqrt(square) / (2e-6 / Math.SQRT2)).toBeCloseTo(1, 12);
    expect(spur.at(4.5)).toBeCloseTo(spur.at(0.5), 20);
  });

  it("keep their phase for 1e9 s, as the product in integers has it", () => {
    const odd = 100.1;
    const whole = BigInt(Math.round(odd * 2 ** 46));
    // u = 10⁹ + 1/8, in units of 1/8 s: the product in integers, independent of the floating-point one.
    const part = Number((whole * 8000000001n) % (8n * 2n ** 46n)) / (8 * 2 ** 46);
    const spur = lines(odd);
    const early = lines(1);
    expect(spur.at(1e9 + 0.125)).toBeCloseTo(early.at(part), 17);
  });

  it("have another phase for another seed", () => {
    expect(lines(1, "a").at(0)).not.toBe(lines(1, "b").at(0));
  });

  it("are nothing without lines", () => {
    expect(new SpurLines([], new RandomStream("s", "none")).at(7)).toBe(0);
  });
});
