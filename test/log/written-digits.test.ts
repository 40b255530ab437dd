import { describe, expect, it } from "vitest";
import { readLog } from "../../src/log/index.ts";
import type { PeriodReadings } from "../../src/readings/index.ts";

const root12 = Math.sqrt(12);
const of = (lines: readonly string[], nominalPeriod = 1) =>
  readLog(`${lines.join("\n")}\n`, { file: "f", nominalPeriod, backToBack: true })
    .readings as PeriodReadings;

describe("digits that readings end at", () => {
  it("leave a uniform error of one step (JCGM 100:2008, 4.3.7)", () => {
    const { resolution, rounding } = of(["1.00", "1.05"]);
    expect(resolution).toBeCloseTo(0.01 * Math.sqrt((1 + 1 / 1.05 ** 2) / 2), 12);
    expect(rounding).toBeCloseTo(resolution! / root12, 15);
    expect(of(["10000000.0", "10000000.5"], 1e7).resolution).toBeCloseTo(1e-8, 15);
  });

  it("are coarser above a power of ten in a display of so many digits; a zero at the end is a digit", () => {
    const display = Array.from({ length: 400 }, (_, i) =>
      (1 + 1e-3 * Math.sin(i * i + 1)).toPrecision(6),
    );
    const above = display.filter((v) => Number(v) >= 1).length / 400;
    const square = above * 1e-10 + (1 - above) * 1e-12;
    expect(of(display).resolution! / Math.sqrt(square)).toBeCloseTo(1, 2);
    expect(of(display.map(() => "1.000000")).resolution).toBe(1e-6);
    expect(of(["999.97103 ms", "1000.04053 ms"]).resolution).toBeCloseTo(1e-8, 12);
  });

  it("are none to speak of where readings have all digits of a double", () => {
    const full = Array.from({ length: 50 }, (_, i) => String(1 + 1e-4 * Math.sin(i * i)));
    expect(of(full).rounding ?? 0).toBeLessThan(1e-15);
  });
});
