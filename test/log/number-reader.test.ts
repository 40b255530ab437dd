import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readLog } from "../../src/log/index.ts";
import type { TimeErrorReadings } from "../../src/readings/index.ts";

/** Numbers as the reader takes them, where any size may stand. */
const read = (lines: readonly string[], head = "time_error_s") => [
  ...(
    readLog(`${head}\n${lines.join("\n")}\n`, { file: "f", gate: 1 }).readings as TimeErrorReadings
  ).timeError,
];

describe("numbers of a log", () => {
  // ECMA-262 says what Number() gives: the double nearest to the decimal written.
  it("are to the last bit what Number() gives, of every double and of numbers of any digits", () => {
    const written = fc.oneof(
      fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e30, max: 1e30 }).map(String),
      fc.double({ min: 0.9, max: 1.1, noNaN: true }).map((v) => v.toFixed(12)),
      fc.stringMatching(/^[-+]?\d{1,25}(\.\d{1,25})?([eE][-+]?\d)?$/),
    );
    fc.assert(
      fc.property(fc.array(written, { minLength: 1, maxLength: 15 }), (lines) => {
        expect(read(lines)).toEqual(lines.map(Number));
      }),
      { seed: 51, numRuns: 400 },
    );
  });

  it.each([
    ["1.25E-3", 1.25e-3],
    ["1.25e+03", 1250],
    ["-1.25D-03", -1.25e-3],
    ["+1.25 x 10^-3", 1.25e-3],
    ["1.25·10^3".replace("·", "*"), 1250],
    ["\u22121.25", -1.25],
    ["1'000'000.25", 1_000_000.25],
    ["1\u2009000\u2009000.25", 1_000_000.25],
    ["1\u00a0000.25", 1000.25],
    ["1,000,000.25", 1_000_000.25],
    ["1.000 028 5", 1.0000285],
  ])("%s is read as %d", (written, value) => {
    expect(read([written, written, written])).toEqual([value, value, value]);
  });

  it.each([
    ["1.000.000,25", 1_000_000.25],
    ["0,999971030", 0.99997103],
    ["1 000,5", 1000.5],
  ])("%s is read as %d, with a decimal comma", (written, value) => {
    expect(read(["0,05", written, "0,05"])).toContain(value);
  });

  it("carry the prefix of their unit with one rounding", () => {
    const units = { s: 0, ms: -3, µs: -6, μs: -6, us: -6, ns: -9, ps: -12 };
    for (const [unit, power] of Object.entries(units)) {
      expect(read([`999.97103 ${unit}`, `12.3${unit}`])).toEqual([
        Number(`999.97103e${power}`),
        Number(`12.3e${power}`),
      ]);
      expect(read(["999.97103", "12.3"], `x (${unit})`)[0]).toBe(Number(`999.97103e${power}`));
    }
  });
});
