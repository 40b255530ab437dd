import { describe, expect, it } from "vitest";
import { costByTrials } from "../../src/cli/index.ts";

/** A machine on which a run takes 2 ms and 0.1 ms a reading, and some of the trials, counted from 1, a pause more. */
function machine(pauses: Readonly<Record<number, number>> = {}) {
  let trials = 0;
  return (readings: number) => 2e-3 + 1e-4 * readings + (pauses[++trials] ?? 0);
}

// Arithmetic, no published source: what a run of so many readings takes on that machine.
const whole = machine()(30_000);

describe("the cost of a run by trials", () => {
  it("is that of the run itself, but for what a trial pays once", () => {
    expect(costByTrials(30_000, machine()) / whole).toBeCloseTo(1, 1);
    expect(costByTrials(20, machine())).toBe(machine()(20));
  });

  it("does not take a pause of the machine for the price of readings", () => {
    for (const paused of [1, 2, 3, 4, 5, 6, 7]) {
      const cost = costByTrials(30_000, machine({ [paused]: 0.5 }));
      expect(cost / whole).toBeCloseTo(1, 1);
    }
  });
});
