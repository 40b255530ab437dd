import { describe, expect, it } from "vitest";
import { Edge, mark } from "../../src/kernel/index.ts";
import { RandomStream } from "../../src/numeric/index.ts";
import type { CounterParameters } from "../../src/stages/counter/index.ts";
import {
  DirectCounter,
  ReciprocalCounter,
  referenceTimeBase,
  type TimeBase,
  TimeIntervalCounter,
} from "../../src/stages/counter/index.ts";

const parameters: CounterParameters = {
  input: "clock",
  technique: "reciprocal",
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

interface Taken {
  start: number;
  cycles: number;
  interval: number;
  timeError: number;
  marks: number;
}

/** Feeds edges at the given moments, counts from 1, to a counter, on a perfect time base if no other is given. */
function feed(
  moments: readonly number[],
  change: Partial<CounterParameters>,
  end = Number.NaN,
  base: TimeBase = referenceTimeBase(() => 0),
  marksOf: (edge: number) => number = () => 0,
): Taken[] {
  const p = { ...parameters, ...change };
  const taken: Taken[] = [];
  const sink = (r: { start: { toSeconds(): number } } & Omit<Taken, "start">) => {
    taken.push({
      start: r.start.toSeconds(),
      cycles: r.cycles,
      interval: r.interval,
      timeError: r.timeError,
      marks: r.marks,
    });
  };
  const stream = new RandomStream("c", "counter");
  const counter =
    p.technique === "reciprocal"
      ? new ReciprocalCounter(p, base, 1, 0, stream, sink)
      : p.technique === "direct"
        ? new DirectCounter(p, base, 1, 0, stream, sink)
        : new TimeIntervalCounter(p, base, 1, 0, stream, sink);
  const edge = new Edge();
  moments.forEach((t, i) => {
    edge.count = i + 1;
    edge.instant.set(t, 0);
    edge.lapse = 1;
    edge.marks = marksOf(i);
    counter.offer(edge);
  });
  if (!Number.isNaN(end)) {
    edge.instant.set(end, 0);
    counter.finish(edge);
  }
  return taken;
}

const ticks = (count: number, period = 1, first = 0.25) =>
  Array.from({ length: count }, (_, i) => first + i * period);

describe("ReciprocalCounter", () => {
  it("back to back, starts each reading with the stop edge of the one before", () => {
    const taken = feed(ticks(31), {});
    expect(taken.map((r) => [r.start, r.cycles, r.interval])).toEqual([
      [0.25, 10, 10],
      [10.25, 10, 10],
      [20.25, 10, 10],
    ]);
  });

  it("waits for the first edge after the gate has lasted", () => {
    // Ticks of 1.5 s: after 10 s the next edge is the seventh period's end.
    expect(feed(ticks(8, 1.5), {})[0]).toMatchObject({ cycles: 7, interval: 10.5 });
  });

  it("with dead time, starts at the first edge after it", () => {
    const taken = feed(ticks(40), { deadTime: 2.5 });
    expect(taken.map((r) => r.start)).toEqual([0.25, 13.25, 26.25]);
  });

  it("takes single periods", () => {
    const taken = feed(ticks(5), { gate: "single" });
    expect(taken.map((r) => r.cycles)).toEqual([1, 1, 1, 1]);
  });

  it("gives intervals in whole units of its resolution", () => {
    const taken = feed(ticks(40, 1.0003), { gate: "single", resolution: 1e-3 });
    for (const r of taken) expect(r.interval * 1e3).toBeCloseTo(Math.round(r.interval * 1e3), 6);
    const total = taken.reduce((sum, r) => sum + r.interval, 0);
    // Back to back, the units add up: two stamps, a unit each at most.
    expect(Math.abs(total - taken.length * 1.0003)).toBeLessThan(1e-3);
  });

  it("ignores edges within the hold-off of one it took", () => {
    const bouncing = ticks(31).flatMap((t) => [t, t + 0.004, t + 0.011]);
    expect(feed(bouncing, { holdoff: 0.02 }).map((r) => r.cycles)).toEqual([10, 10, 10]);
    expect(feed(bouncing, {}).map((r) => r.cycles)[0]).toBe(30);
  });
});

describe("DirectCounter", () => {
  it("back to back, counts every edge once: the counts telescope", () => {
    const taken = feed(ticks(100, 0.37), { technique: "direct", gate: 3 });
    const total = taken.reduce((sum, r) => sum + r.cycles, 0);
    expect(taken.length).toBeGreaterThan(10);
    expect(Math.abs(total - (taken.length * 3) / 0.37)).toBeLessThanOrEqual(1);
    for (const r of taken) expect(Math.abs(r.cycles - 3 / 0.37)).toBeLessThanOrEqual(1);
  });

  it("flags a gate without an edge and gives no period", () => {
    const taken = feed([0.5, 1.5, 9.5], { technique: "direct", gate: 2 }, 20);
    const empty = taken.filter((r) => r.cycles === 0);
    expect(empty.length).toBeGreaterThan(0);
    for (const r of empty) {
      expect(r.marks & mark.noEdge).toBe(mark.noEdge);
      expect(r.interval).toBeNaN();
    }
  });
});

describe("TimeIntervalCounter", () => {
  it("measures from each second to the next tick, early positive", () => {
    // The n-th tick (from 1) comes at n − 1 + 0.25, so the dial is 0.75 s ahead.
    const taken = feed(ticks(6), { technique: "time_interval", gate: "single" });
    expect(taken.map((r) => r.start)).toEqual([0, 1, 2, 3, 4, 5]);
    for (const r of taken) {
      expect(r.interval).toBeCloseTo(0.25, 12);
      expect(r.timeError).toBeCloseTo(0.75, 12);
    }
  });

  it("loses the seconds that pass while it waits for a tick", () => {
    const taken = feed(ticks(4, 2), { technique: "time_interval", gate: "single" });
    expect(taken.map((r) => r.start)).toEqual([0, 1, 3, 5]);
  });
});

describe("a counter that waits for its gate", () => {
  const techniques = ["reciprocal", "direct", "time_interval"] as const;

  it.each(techniques)("stamps few edges, with all the time that has passed (%s)", (technique) => {
    const lapses: number[] = [];
    const base: TimeBase = {
      rateAt: () => 0,
      stamp(edge, lapse, out) {
        lapses.push(lapse);
        out.copy(edge.instant);
      },
    };
    feed(ticks(100), { technique }, Number.NaN, base);
    expect(lapses.length).toBeLessThan(40);
    // The last stamp falls within the last gate of ten edges.
    const stamped = lapses.reduce((sum, lapse) => sum + lapse, 0);
    expect(stamped).toBeGreaterThan(90);
    expect(stamped).toBeLessThanOrEqual(100);
  });

  it.each(techniques)("reads as one that looks at every edge (%s)", (technique) => {
    // A hold-off shorter than any interval changes nothing but that each edge is looked at.
    const moments = ticks(200, 1.003);
    const waiting = feed(moments, { technique, deadTime: 3 });
    expect(waiting.length).toBeGreaterThan(10);
    expect(feed(moments, { technique, deadTime: 3, holdoff: 1e-6 })).toEqual(waiting);
  });

  it.each([
    ["reciprocal", 40],
    ["direct", 40],
    // Its reading starts at the end of what it tells of.
    ["time_interval", 50],
  ] as const)("tells what befell an edge that it passed over (%s)", (technique, start) => {
    const marked = (i: number) => (i === 44 ? mark.slip : 0);
    const taken = feed(
      ticks(100),
      { technique },
      Number.NaN,
      referenceTimeBase(() => 0),
      marked,
    );
    const slipped = taken.filter((r) => r.marks === mark.slip);
    expect(slipped).toHaveLength(1);
    expect(Math.abs(slipped[0]!.start - start)).toBeLessThan(1);
  });
});
