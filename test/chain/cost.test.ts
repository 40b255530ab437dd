import { afterEach, describe, expect, it, vi } from "vitest";
import { ReferenceLine, SynthesizerLine } from "../../src/chain/index.ts";
import { demo, runChain } from "./run-chain.ts";

afterEach(() => vi.restoreAllMocks());

/** Edges computed for a reading: what it costs, whatever the machine. */
function edgesPerReading(name: string, sets: readonly string[]): number {
  const reference = vi.spyOn(ReferenceLine.prototype, "moveOn");
  const synthesizer = vi.spyOn(SynthesizerLine.prototype, "moveOn");
  const { readings } = runChain(demo(name, sets), { recording: "lazy" });
  const looked = reference.mock.calls.length + synthesizer.mock.calls.length;
  vi.restoreAllMocks();
  return looked / readings.length;
}

describe("what nobody looks at costs nothing", () => {
  const second = ["length_s=500", "counter.gate_s=1"];

  it("ten million edges a second cost about as much as one, with a gate of 1 s", () => {
    const clock = edgesPerReading("observatory-own-oscillator", second);
    const reference = edgesPerReading("reference-direct", second);
    expect(clock).toBeLessThan(1.1);
    expect(reference).toBeLessThan(1.1);
  });

  it("a gate of 100 s costs a hundredth a second of one of 1 s", () => {
    for (const name of ["reference-direct", "observatory", "observatory-own-oscillator"]) {
      const short = edgesPerReading(name, second);
      const long = edgesPerReading(name, ["length_s=50000", "counter.gate_s=100"]);
      // As many edges a reading; or one more, where the end of the gate falls on an edge within their noise.
      expect(long - short).toBeLessThan(1.1);
      expect(long).toBeGreaterThanOrEqual(1);
    }
  });
});
