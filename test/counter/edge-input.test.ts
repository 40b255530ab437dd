import { describe, expect, it } from "vitest";
import { Edge, mark } from "../../src/kernel/index.ts";
import { Instant, RandomStream } from "../../src/numeric/index.ts";
import type { CounterParameters } from "../../src/stages/counter/index.ts";
import { EdgeInput } from "../../src/stages/counter/index.ts";

const parameters: CounterParameters = {
  input: "clock",
  technique: "direct",
  gate: 10,
  gateMax: null,
  deadTime: 0,
  holdoff: 0,
  resolution: 0,
  triggerNoise: 0,
  missedEdgeProbability: 0,
  extraEdgeProbability: 0,
  displayDigits: null,
  timebase: "reference",
};

const inputWith = (change: Partial<CounterParameters>) =>
  new EdgeInput({ ...parameters, ...change }, new RandomStream("e", "counter"));

const edge = new Edge();
const offer = (input: EdgeInput, count: number, at: number) => {
  edge.count = count;
  edge.instant.set(at, 0);
  return input.accept(edge);
};

// Counting: common practice, no published source.
describe("EdgeInput", () => {
  it("counts edges nobody looked at, from the count of the source", () => {
    const input = inputWith({});
    offer(input, 1, 1);
    offer(input, 50, 50);
    expect([input.cyclesBefore, input.cycles]).toEqual([49, 50]);
    input.skipTo(60);
    expect(input.cycles).toBe(60);
  });

  it("gives each planned miscount an edge of its own", () => {
    const input = inputWith({});
    input.plan(2.5, -1);
    input.plan(2.5, -1);
    input.plan(2.5, 1);
    const seen = [1, 2, 3, 4, 5, 6].map((n) => offer(input, n, n));
    expect(seen).toEqual([true, true, false, false, true, true]);
    expect(input.cycles).toBe(5);
    expect(input.marks).toBe(mark.missedEdge | mark.extraEdge);
  });

  it("misses an edge once, however many causes there are", () => {
    const input = inputWith({ missedEdgeProbability: 1 - 1e-12 });
    input.plan(1, -1);
    offer(input, 1, 1);
    expect(input.cycles).toBe(0);
  });

  it("lets nobody sleep beyond the next planned miscount", () => {
    const input = inputWith({});
    const wake = new Instant().set(100, 0);
    expect(input.earlier(wake)).toBe(wake);
    input.plan(30, -1);
    expect(input.earlier(wake).toSeconds()).toBe(30);
    offer(input, 30, 30);
    expect(input.earlier(wake)).toBe(wake);
  });

  it("holds off from the edge last accepted, not from the one last ignored", () => {
    const input = inputWith({ holdoff: 1.5 });
    const seen = [1, 2, 3, 4, 5].map((n) => offer(input, n, n));
    expect(seen).toEqual([true, false, true, false, true]);
    expect(input.cycles).toBe(3);
  });
});
