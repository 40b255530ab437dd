import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readLog } from "../../src/log/index.ts";
import type { PeriodReadings } from "../../src/readings/index.ts";
import { InputError } from "../../src/readings/index.ts";

const seed = 4180;

/** Runs it and lets nothing through but a result or an InputError. */
function outcome(text: string, nominalPeriod?: number) {
  try {
    return readLog(text, {
      file: "f",
      ...(nominalPeriod === undefined ? {} : { nominalPeriod }),
    });
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    const { message, line } = error as InputError;
    expect(message.split("\n")[0]!.length).toBeGreaterThan(10);
    if (line !== null) expect(line).toBeLessThanOrEqual(text.split(/\r\n|\n|\r/).length);
    return null;
  }
}

const cell = fc.oneof(
  { weight: 6, arbitrary: fc.double({ min: 0.9, max: 1.1, noNaN: true }).map(String) },
  fc.constantFrom(
    "",
    "NaN",
    "1,5",
    "1.000,5",
    "x",
    '"',
    '"a',
    "1e400",
    "0x10",
    "-",
    "2031-01-01",
    ";",
    "∞",
    "１",
  ),
  fc.string({ maxLength: 6 }),
);
const line = fc
  .tuple(fc.array(cell, { minLength: 1, maxLength: 4 }), fc.constantFrom(",", ";", "\t", " "))
  .map(([cells, delimiter]) => cells.join(delimiter));

describe("readLog, fuzzed", () => {
  it("gives readings or an InputError for any text", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 200 }), (text) => {
        outcome(text, 1);
        outcome(text);
      }),
      { seed, numRuns: 400 },
    );
  });

  it("gives readings or an InputError for tables gone wrong, and every reading stands in its line", () => {
    const table = fc
      .tuple(
        fc.constantFrom(
          "",
          "period_s",
          "n,period_s",
          "start_s;cycles;period_s",
          "time\tfrequency_hz",
          "rate",
        ),
        fc.array(line, { minLength: 1, maxLength: 12 }),
        fc.constantFrom("\n", "\r\n", "\r"),
      )
      .map(([head, lines, end]) => ({ text: [head, ...lines, ""].join(end), end }));
    fc.assert(
      fc.property(table, ({ text, end }) => {
        const result = outcome(text, 1);
        if (result === null || result.readings.kind !== "period" || result.quantity !== "period_s")
          return;
        const lines = text.split(end);
        result.readings.period.forEach((p, i) => {
          if (Number.isNaN(p) || text.includes('"')) return;
          // The number must stand in the line it is said to come from, as a field of its own.
          const fields = lines[result.readings.line![i]! - 1]!.split(/[;\t ]|,(?!\d*$)|,/).concat(
            lines[result.readings.line![i]! - 1]!.split(/[;\t ]/),
          );
          expect(fields.some((f) => Number(f.trim().replace(",", ".")) === p)).toBe(true);
        });
      }),
      { seed, numRuns: 1500 },
    );
  });

  it("gives back the numbers of every well-made table, however it is written", () => {
    const style = fc.record({
      values: fc.array(fc.double({ min: 0.91, max: 1.09, noNaN: true }), {
        minLength: 1,
        maxLength: 20,
      }),
      delimiter: fc.constantFrom(",", ";", "\t"),
      decimalComma: fc.boolean(),
      end: fc.constantFrom("\n", "\r\n"),
      mark: fc.boolean(),
      quoted: fc.boolean(),
      gaps: fc.boolean(),
    });
    fc.assert(
      fc.property(style, (s) => {
        const comma = s.decimalComma && s.delimiter !== ",";
        const write = (v: number, i: number) => {
          if (s.gaps && i % 3 === 1) return "";
          const digits = comma ? String(v).replace(".", ",") : String(v);
          return s.quoted ? `"${digits}"` : digits;
        };
        const rows = s.values.map((v, i) => `${i}${s.delimiter}${write(v, i)}`);
        const text = `${s.mark ? "\uFEFF" : ""}${["n", "period_s"].join(s.delimiter)}${s.end}${rows.join(s.end)}${s.end}`;
        const expected = s.values.map((v, i) => (s.gaps && i % 3 === 1 ? Number.NaN : v));
        const result = readLog(text, { file: "f", nominalPeriod: 1 });
        expect([...(result.readings as PeriodReadings).period]).toEqual(expected);
      }),
      { seed, numRuns: 400 },
    );
  });
});
