import { describe, expect, it } from "vitest";
import { benchNodes, pictureFiles } from "../../src/cli/index.ts";
import type { PeriodReadings } from "../../src/readings/index.ts";
import { gateGroups } from "../../src/view/report/index.ts";
import { backToBackRecord } from "../judgement/coverage-harness.ts";

/** Readings of ten cycles of a second, with jitter alone. */
const record = backToBackRecord(200, { measurement: 1e6 }, "pictures").readings as PeriodReadings;

const benchPictures = (...about: Parameters<typeof benchNodes>) =>
  pictureFiles(benchNodes(...about));

describe("pictures of a bench's own readings", () => {
  const period = record.period.slice();
  // A tick missed by the clock, and a reading that is a quarter of a cycle too long.
  period[60]! *= 11 / 10;
  period[120]! += 0.025;
  const known = { slipUnit: 1, systematicBound: 0 };
  const pictures = benchPictures("bench", { ...record, period }, known, []);
  const svgOf = (name: string) => pictures.find((picture) => picture.name === name)!.svg;

  it("mark the slip in the time error, and fit no line over it", () => {
    expect(svgOf("time-error")).toContain("slip of −1 step");
    expect(svgOf("time-error")).not.toContain("line fit");
    const [whole] = benchPictures("bench", record, known, []).filter(
      (p) => p.name === "time-error",
    );
    expect(whole!.svg).toContain("line fit");
  });

  it("draw the interval of the mean as wide as time base and noise together make it", () => {
    const halfWidth = (systematicBound: number) => {
      const made = benchPictures("bench", record, { ...known, systematicBound }, []);
      const { svg } = made.find((picture) => picture.name === "readings")!;
      const [, number, unit] = /±([\d.]+) (m?s)\/day at 95/.exec(svg)!;
      return Number(number) / (unit === "s" ? 86400 : 86400e3);
    };
    // Three digits are written; a bound adds in full, as it does not average out (README, "What the numbers mean").
    const alone = halfWidth(0);
    for (const bound of [alone, 10 * alone]) {
      expect(halfWidth(bound) / (alone + bound)).toBeCloseTo(1, 2);
    }
  });

  it("show the readings that the rate is estimated from: nothing far beyond them", () => {
    expect(svgOf("readings")).not.toMatch(/beyond the scale/);
    expect(svgOf("histogram")).toMatch(/199 readings/);
  });
});

describe("gateGroups", () => {
  it("tells the length of whole gates, whatever gaps stand between them", () => {
    const cycles = record.cycles.map((n, i) => (i % 50 === 7 ? Number.NaN : n));
    const period = record.period.map((p, i) => (i % 50 === 7 ? Number.NaN : p));
    const groups = gateGroups({ ...record, cycles, period });
    const gate = record.cycles[0]! * record.nominalPeriod;
    expect(groups.map((group) => group.gate)).toEqual(
      groups.map((group) => Number((gate * group.joined).toPrecision(3))),
    );
    expect(groups.length).toBeGreaterThan(3);
  });
});
