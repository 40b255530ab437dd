import { describe, expect, it } from "vitest";
import { gateTimes } from "../../src/stages/counter/index.ts";

describe("gateTimes", () => {
  // Rubiola, Rev. Sci. Instrum. 76, 054703 (2005), for the two kinds of gate; by definition: a single gate is one period a reading; a time-interval counter starts on seconds.
  it.each([
    ["reciprocal", "single", { gate: 0, shortest: 0.25, deadTime: 3 }],
    ["direct", "single", { gate: 0.25, shortest: 0.25, deadTime: 3 }],
    ["time_interval", "single", { gate: 1, shortest: 1, deadTime: 0 }],
    ["reciprocal", 10, { gate: 10, shortest: 10, deadTime: 3 }],
    ["direct", 10, { gate: 10, shortest: 10, deadTime: 3 }],
    ["time_interval", 10, { gate: 10, shortest: 10, deadTime: 0 }],
  ] as const)("of a %s counter with the gate %s", (technique, gate, times) => {
    expect(gateTimes({ technique, gate, deadTime: 3 }, 0.25)).toEqual(times);
  });
});
