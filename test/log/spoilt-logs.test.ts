import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type LogOptions, readLog } from "../../src/log/index.ts";
import { InputError, type PeriodReadings } from "../../src/readings/index.ts";

const options: LogOptions = { file: "f", nominalPeriod: 1, gate: 10, backToBack: true };

const two = (n: number) => String(n).padStart(2, "0");
const clock = (i: number) => {
  const s = 8 * 3600 + 10 * i;
  return `${two(Math.floor(s / 3600) % 24)}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}`;
};
const comma = (text: string) => text.replace(".", ",");
const grouped = (text: string) => text.replace(/(\.\d{3})(\d{3})(\d{3})$/, "$1 $2 $3");

/** Ways in which a period p, the i-th, is written; with the lines above. */
const styles: Readonly<
  Record<string, readonly [head: string, line: (p: number, i: number) => string]>
> = {
  plain: ["", (p) => p.toFixed(9)],
  unit: ["", (p) => `  ${p.toExponential(9).replace(/e([+-])/, "E$10")} s`],
  milliseconds: ["", (p) => `${(1e3 * p).toFixed(6)} ms`],
  hertz: ["", (p) => `F= ${grouped((1 / p).toFixed(9))} Hz`],
  labelled: ["", (p) => `P: ${p.toFixed(9)} s`],
  terminal: ["", (p, i) => `[${clock(i)}]  -> ${p.toFixed(9)} s`],
  table: [
    "time,period_s,temp_c\n",
    (p, i) => `2031-05-14 ${clock(i)},${p.toFixed(9)},21.${i % 10}`,
  ],
  german: ["Zeit;Periode\n", (p, i) => `14.05.2031 ${clock(i)};${comma(p.toFixed(9))}`],
  quoted: ['"t","period (s)"\n', (p, i) => `"${10 * i}.00","${p.toFixed(9)}"`],
  tabs: ["n\tperiod_us\n", (p, i) => `${i}\t${(1e6 * p).toFixed(3)}`],
};

const periods = fc.array(fc.integer({ min: -99_999, max: 99_999 }), {
  minLength: 40,
  maxLength: 80,
});
const log = fc.tuple(fc.constantFrom(...Object.keys(styles)), periods).map(([style, parts]) => {
  const [head, line] = styles[style]!;
  // A second to the last digit shows that zeros at the end are written.
  const values = [0, ...parts].map((part) => 1 + 1e-9 * part);
  return { style, head, values, lines: values.map(line) };
});

/** What goes wrong with one line on its way; digits are never changed into others, which no one can see. */
const faults: Readonly<Record<string, (line: string, at: number) => string>> = {
  "a character is lost": (line, at) => line.slice(0, at) + line.slice(at + 1),
  "a character is doubled": (line, at) => line.slice(0, at + 1) + line.slice(at),
  "junk comes in": (line, at) => `${line.slice(0, at)}~${line.slice(at)}`,
  "bytes that are no text come in": (line, at) =>
    `${line.slice(0, at)}\ufffd\u0000${line.slice(at)}`,
  "a blank comes in": (line, at) => `${line.slice(0, at)} ${line.slice(at)}`,
  "the line is broken": (line, at) => `${line.slice(0, at)}\n${line.slice(at)}`,
  "its end is lost": (line, at) => line.slice(0, at),
  "its beginning is lost": (line, at) => line.slice(at),
  "another unit": (line) => line.replace(/\b(?:m?s|Hz)$/, "kg"),
  "a unit of another kind": (line) =>
    /s$/.test(line) ? line.replace(/m?s$/, "Hz") : line.replace("Hz", "s"),
  "another separator": (line) => line.replace(/[,;\t]/, "|"),
  "another decimal sign": (line) =>
    line.replace(/(\d)([.,])(?=\d+\D*$)/, (_, d, sign) => d + (sign === "." ? "," : ".")),
  "an overflow": (line) => line.replace(/[\d. ]{9,}(?=\D*$)/, " OVERFLOW "),
  "two lines run together": (line) => `${line}${line}`,
  "a sign comes in": (line) => line.replace(/(?=\d[.,]?\d*[.,]\d+\D*$)/, "-"),
};
const fault = fc.constantFrom(...Object.keys(faults));

/** Reads a text; null for an error that says where. */
function read(text: string | Uint8Array) {
  try {
    return readLog(text, options);
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    expect((error as Error).message.length).toBeGreaterThan(20);
    return null;
  }
}

/** Readings that are no period of the log. */
function strange(readings: PeriodReadings, values: readonly number[]): number[] {
  const near = (p: number, v: number) => Math.abs(p - v) < 1.1e-9;
  return [...readings.period].filter((p) => !Number.isNaN(p) && !values.some((v) => near(p, v)));
}

describe("a log that is spoilt", () => {
  it("on one line, gives the same readings but that one and tells, or an error; never another number", () => {
    fc.assert(
      fc.property(
        log,
        fault,
        fc.nat(),
        fc.nat(),
        ({ head, values, lines, style }, kind, place, at) => {
          const i = place % lines.length;
          const whole = lines[i]!;
          const spoilt = faults[kind]!(whole, at % whole.length);
          const text = `${head}${lines.with(i, spoilt).join("\n")}\n`;
          const result = read(text);
          if (result === null || spoilt === whole) return;
          const { readings, notes } = result;
          expect(strange(readings as PeriodReadings, values), `${style}: ${spoilt}`).toEqual([]);
          const count = (readings as PeriodReadings).period.filter((p) => !Number.isNaN(p)).length;
          expect([lines.length - 1, lines.length], `${style}: ${spoilt}`).toContain(count);
          // An empty line says nothing, and nothing is said of it.
          if (count === lines.length || spoilt.trim() === "") return;
          expect(
            notes.map(({ code }) => code),
            `${style}: ${spoilt}`,
          ).toContain("skipped_line");
        },
      ),
      { seed: 1601, numRuns: 1200 },
    );
  });

  it("by junk, headers and footers, gives the same readings and tells", () => {
    const junk = fc.constantFrom(
      "--- 09:00 ---",
      "door opened",
      "Mean: 1.00001 s",
      "mean = 1.000010000 s",
      "Average;1,000010000",
      "Std dev 0.00003",
      "gate 10 s",
      "n = 409",
      "end of log",
      "Count: 409 readings",
      "\u0000\u0001\u0002",
      "%%% 1.000010000",
      "error 17",
      "12:00",
      "14.05.2031",
    );
    fc.assert(
      fc.property(
        log,
        fc.array(fc.tuple(junk, fc.nat()), { minLength: 1, maxLength: 3 }),
        ({ head, values, lines, style }, added) => {
          const mixed = [...lines];
          for (const [text, place] of added) mixed.splice(1 + (place % mixed.length), 0, text);
          const result = read(`${head}${mixed.join("\n")}\n`);
          if (result === null) return;
          const { readings, notes } = result;
          expect(
            strange(readings as PeriodReadings, values),
            `${style} ${JSON.stringify(added)} ${lines.length}`,
          ).toEqual([]);
          expect((readings as PeriodReadings).period.filter((p) => !Number.isNaN(p)).length).toBe(
            lines.length,
          );
          const told = added.filter(([text]) => !text.startsWith("%"));
          if (told.length > 0)
            expect(
              notes.map(({ code }) => code),
              JSON.stringify([style, added]),
            ).toContain("skipped_line");
        },
      ),
      { seed: 1602, numRuns: 400 },
    );
  });

  it("by being cut anywhere, gives the readings before, and tells", () => {
    fc.assert(
      fc.property(log, fc.nat(), ({ head, values, lines, style }, place) => {
        const whole = `${head}${lines.join("\n")}\n`;
        const at = head.length + (place % (whole.length - head.length));
        const cut = whole.slice(0, at);
        const result = read(cut);
        if (result === null) return;
        const { readings, notes } = result;
        const ended = cut.slice(head.length).split("\n").length - 1;
        const isTold = notes.some(({ code }) => code === "cut_line");
        expect(isTold || /\n\s*$/.test(cut), `${style}: ${cut.slice(-30)}`).toBe(true);
        if (ended === 0) return;
        expect(strange(readings as PeriodReadings, values), `${style}: ${cut.slice(-30)}`).toEqual(
          [],
        );
        const count = (readings as PeriodReadings).period.length;
        expect([ended, ended + 1]).toContain(count);
      }),
      { seed: 1603, numRuns: 600 },
    );
  });
});
