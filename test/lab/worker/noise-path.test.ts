import { describe, expect, it } from "vitest";
import { noisePath } from "../../../src/lab/index.ts";
import { RandomStream } from "../../../src/numeric/index.ts";
import type { ReceiverParameters } from "../../../src/stages/receiver/index.ts";

const receiver = (change: Partial<ReceiverParameters>): ReceiverParameters => ({
  rectifier: "full",
  timeConstant: 0.01,
  leak: true,
  thresholdV: 4,
  noiseV: 0.2,
  extraStepRateHz: 0,
  ...change,
});

const time = Float64Array.from({ length: 101 }, (_, i) => i * 1e-4);
const rising = time.map((t) => 500 * t);

describe("noisePath", () => {
  it.each([true, false])("reaches the threshold at the step and not before (leak %s)", (leak) => {
    const stream = new RandomStream("noise-path", `${leak}`);
    for (let k = 0; k < 50; k++) {
      const noise = noisePath(receiver({ leak }), time, rising, 78, 101, stream)!;
      const voltage = rising.map((value, i) => value + noise[i]!);
      expect(voltage[78]).toBeCloseTo(4, 12);
      expect(Math.max(...voltage.subarray(0, 78))).toBeLessThan(4);
    }
  });

  it("stays below to the end of the burst where there is no step", () => {
    const stream = new RandomStream("noise-path", "missed");
    const low = time.map(() => 3.7);
    const noise = noisePath(receiver({}), time, low, -1, 60, stream)!;
    expect(Math.max(...noise.subarray(0, 60))).toBeLessThan(0.3);
  });

  it("is null where no path comes with the step, and nothing where there is no noise", () => {
    const stream = new RandomStream("noise-path", "never");
    const above = time.map((_, i) => (i === 10 ? 9 : 0));
    expect(noisePath(receiver({}), time, above, 78, 101, stream)).toBeNull();
    expect(noisePath(receiver({ noiseV: 0 }), time, rising, 80, 101, stream)).toEqual(
      new Float64Array(101),
    );
  });

  // Ornstein-Uhlenbeck: variance noise_v², correlation e^(−t/τ). 4000 paths: the mean square has the relative
  // standard deviation √(2/4000) = 2.2 %, the product about 2 %; 5 σ, a false alarm in a million.
  it("is the stationary process where nothing pins it", () => {
    const stream = new RandomStream("noise-path", "free");
    const far = new Float64Array(3);
    const moments = Float64Array.of(0, 0.004, 0.01);
    let square = 0;
    let product = 0;
    const paths = 4000;
    for (let k = 0; k < paths; k++) {
      const noise = noisePath(receiver({}), moments, far, -1, 3, stream)!;
      square += noise[2]! ** 2 / paths;
      product += (noise[0]! * noise[2]!) / paths;
    }
    expect(Math.abs(square / 0.04 - 1)).toBeLessThan(0.11);
    expect(Math.abs(product / 0.04 - Math.exp(-1))).toBeLessThan(0.1);
  });
});
