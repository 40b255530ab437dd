import { describe, expect, it } from "vitest";
import { NoisePosterior, toEvents } from "../../src/noise-model/index.ts";
import { RandomStream } from "../../src/numeric/index.ts";

/** Readings of a second with edges of 0.3 ms, back to back or each for itself. */
function events(gap: number, size = 100) {
  const stream = new RandomStream("bound", "edges");
  const edge = Float64Array.from({ length: size + 1 }, () => 3e-4 * stream.normal());
  const gain = Float64Array.from({ length: size }, (_, i) => edge[i + 1]! - edge[i]!);
  const all = (value: number) => gain.map(() => value);
  return toEvents({ length: all(1), gain, gap: all(gap), gapGain: all(Number.NaN) });
}

describe("a bound on the source", () => {
  it.each([
    [0, 100],
    [0, 300],
    [1, 100],
  ])("far below the noise leaves an interval, no wider: gaps of %d s, %d readings", (gap, size) => {
    const open = new NoisePosterior(events(gap, size), {}, false).steady();
    const known = { floor: 1e-13, whiteFm: 1e-12 };
    const bounded = new NoisePosterior(events(gap, size), known, false).steady();
    expect(bounded.low).toBeLessThan(0);
    expect(bounded.high).toBeGreaterThan(0);
    expect(bounded.high - bounded.low).toBeLessThanOrEqual(1.05 * (open.high - open.low));
  });
});
