import { describe, expect, it } from "vitest";
import { edgeRecord, judgeReadings } from "../../src/judgement/index.ts";
import { RandomStream } from "../../src/numeric/index.ts";
import type { PeriodReadings } from "../../src/readings/index.ts";

const count = 400;
const jitter = 2e-5;

/** What happens to the edges of a made record; s. */
interface Happening {
  readonly deadTime: number;
  /** Added to every edge from the middle of the record on. */
  readonly step?: number;
  /** Added to one edge in the middle. */
  readonly late?: number;
  /** Rms of what the rate changes by from reading to reading. */
  readonly walk?: number;
  /** Readings missing in the middle. */
  readonly missing?: number;
}

/** Readings of ten cycles of a clock that loses 4e-6; the step comes in a dead time, or within a reading. */
function record(seed: number, happening: Happening): PeriodReadings {
  const { deadTime, step = 0, late = 0, walk = 0, missing = 0 } = happening;
  const stream = new RandomStream(`breaks-${seed}`, "record");
  const middle = count / 2;
  const start = new Float64Array(count);
  const period = new Float64Array(count);
  let rate = -4e-6;
  let at = 0;
  let last = jitter * stream.normal();
  for (let i = 0; i < count; i++) {
    rate += walk * stream.normal();
    if (i === middle) at += step;
    const isSame = deadTime === 0;
    start[i] = isSame ? last : at + jitter * stream.normal() + (i === middle ? late : 0);
    at += 10 * (1 - rate);
    last = at + jitter * stream.normal() + (i === middle && isSame ? late : 0);
    period[i] = (last - start[i]!) / 10;
    at += deadTime * (1 - rate);
  }
  const cycles = new Float64Array(count).fill(10);
  for (const column of [start, period, cycles]) {
    column.fill(Number.NaN, middle - missing / 2, middle + missing / 2);
  }
  return { kind: "period", start, period, cycles, nominalPeriod: 1, backToBack: deadTime === 0 };
}

const seeds = Array.from({ length: 20 }, (_, i) => i);

describe("a part of a cycle lost in a break", () => {
  it.each([
    ["within a reading that is set apart", 0],
    ["between readings with dead time", 2],
  ])("is not taken for rate: %s", (_, deadTime) => {
    // A millisecond in 4000 s or more would be 2e-7 and more, of which a line fit claimed to know 2e-9.
    const { estimates } = judgeReadings(record(1, { deadTime, step: 1e-3 }));
    const [mean, ends, line] = estimates;
    expect([mean!.applies, ends!.applies, line!.applies]).toEqual([true, false, false]);
    expect(Math.abs(mean!.rate + 4e-6)).toBeLessThan(3 * mean!.standardUncertainty);
    const told = /^(.*) cycle was lost or gained in .*, more than noise explains/.exec(line!.why);
    expect(Math.abs(Number(told?.[1]) - 1e-3)).toBeLessThan(5 * jitter);
  });

  it("is told from a late edge, which the next one does not confirm", () => {
    for (const deadTime of [0, 2]) {
      const { estimates } = judgeReadings(record(2, { deadTime, late: 1e-3 }));
      // Mean of readings, end to end, line fit, best fit.
      expect(estimates.map((e) => e.applies)).toEqual([true, true, true, true]);
    }
  });

  it("is not seen where there is none, in jitter or in a rate that wanders, however long the break", () => {
    const joined = (happening: Happening) =>
      seeds.filter((seed) => edgeRecord(record(seed, happening)).joined).length;
    for (const deadTime of [0, 2, 50]) {
      for (const missing of [0, 2, 20, 100]) {
        expect(joined({ deadTime, missing })).toBe(seeds.length);
        // Random-walk FM of 1e-7 a reading carries 100 readings of 10 s some hundred times as far as the jitter.
        expect(joined({ deadTime, missing, walk: 1e-7 })).toBeGreaterThanOrEqual(19);
      }
    }
  });
});
