import { describe, expect, it } from "vitest";
import { type LogOptions, LogReader, readLog } from "../../src/log/index.ts";
import { InputError, type NoteCode, type PeriodReadings } from "../../src/readings/index.ts";

const periods = [
  0.99997103, 1.00004053, 0.99997903, 0.99997645, 1.00000801, 1.00004536, 0.99995627, 1.00003626,
  1.00000268, 0.99998142, 1.0000291, 0.99996003,
];
const lines = (write: (p: number, i: number) => string) => `${periods.map(write).join("\n")}\n`;
const two = (n: number) => String(n).padStart(2, "0");
/** Time of day of the i-th reading, ten seconds apart, from eight o'clock on. */
const clock = (i: number, from = 8 * 3600) => {
  const s = (from + 10 * i) % 86400;
  return `${two(Math.floor(s / 3600))}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}`;
};
const groups = (text: string, sign: string) => text.replace(/\B(?=(\d{3})+(?!\d))/g, sign);
const micro = (p: number, sign: string, point = ".") => {
  const [whole, rest] = (1e6 * p).toFixed(2).split(".");
  return `${groups(whole!, sign)}${point}${rest}`;
};

/** Logs of all sorts, each with the periods above, what stands beside them, and the notes of the reader due. */
const logs: Readonly<
  Record<
    string,
    readonly [text: string, options?: Partial<LogOptions>, notes?: readonly NoteCode[]]
  >
> = {
  "a flag at the end of most lines, but not of the first": [
    `nr,period_s,flag\n${lines((p, i) => `${i},${p},${i < 5 ? "" : "fallback"}`)}`,
  ],
  "a label and a unit": [lines((p) => `P: ${p.toFixed(8)} s`)],
  "a frequency": [lines((p) => `Freq = ${(1 / p).toFixed(10)} Hz`)],
  kilohertz: [lines((p) => `${(1e-3 / p).toFixed(13)} kHz`)],
  "thousands with commas": [lines((p) => `${micro(p, ",")} µs`)],
  "thousands with dots": [lines((p) => `${micro(p, ".", ",")} µs`)],
  "thousands with apostrophes": [lines((p) => `${micro(p, "'")} us`)],
  "thousands with thin spaces": [lines((p) => `${micro(p, "\u2009")} µs`)],
  "quoted thousands": [`period_us\n${lines((p) => `"${micro(p, ",")}"`)}`],
  "an exponent of one digit": [lines((p) => p.toExponential(8).toUpperCase())],
  "a Fortran exponent": [lines((p) => p.toExponential(8).replace("e", "D"))],
  "a power of ten": [lines((p) => `${(1e3 * p).toFixed(5)} x 10^-3 s`)],
  "an index, tabs, a separator at the end": [
    lines((p, i) => `${i}\t${p.toFixed(8)}\t21.${i % 10}\t`),
  ],
  "an index with a dot": [lines((p, i) => `${i + 1}. ${p.toFixed(8)}`)],
  "numbered words": [lines((p, i) => `Reading ${i + 1}: ${p.toFixed(8)} s`)],
  "three labels": [lines((p, i) => `t=${10 * i}.0 P=${p.toFixed(8)} T=21.3C`)],
  JSON: [lines((p, i) => `{"t": ${10 * i}, "period": ${p.toFixed(8)}}`)],
  "JSON with times and units": [
    lines((p, i) => `{"ts":"2031-05-14T${clock(i)}Z","freq":${(1 / p).toFixed(10)},"unit":"Hz"}`),
  ],
  "a prompt before every reading": [
    lines((p) => `> READ?\n+${p.toExponential(8)}`),
    {},
    ["skipped_line"],
  ],
  "seconds a day in a name without brackets": [
    `Zeit;Gang s/d\n${lines((p, i) => `${clock(i)};${(86400 * (1 / p - 1)).toFixed(7).replace(".", ",")}`)}`,
    { nominalPeriod: 1 },
  ],
  "a prefix of a terminal, and sign and exponent": [
    lines((p, i) => `${clock(i)} RX: +${p.toExponential(8).replace(/e([+-])/, "E$10")}`),
  ],
  "a journal": [lines((p, i) => `May 14 ${clock(i)} bench counter[412]: period=${p.toFixed(8)} s`)],
  "separator said in the first line": [
    `sep=;\nTime;Period_s\n${lines((p, i) => `${clock(i)};${p.toFixed(8)}`)}`,
    {},
    ["skipped_line"],
  ],
  tuples: [lines((p, i) => `(${i}, ${p.toFixed(8)})`)],
  "a table drawn with strokes": [
    `| n | period |\n|---|---|\n${lines((p, i) => `| ${i} | ${p.toFixed(8)} |`)}`,
    {},
    ["skipped_line"],
  ],
  "words after the reading": [lines((p, i) => `${p.toFixed(8)} s ${i % 3 ? "OK" : "LOCK"}`)],
  "two units": [lines((p) => (p < 1 ? `${(1e3 * p).toFixed(5)} ms` : `${p.toFixed(8)} s`))],
  "the unit in a column of its own": [lines((p, i) => `${i},${(1 / p).toFixed(10)},Hz`)],
  "units in a line of their own": [
    `time;value\ns;ms\n${lines((p, i) => `${10 * i};${(1e3 * p).toFixed(5)}`)}`,
  ],
  "quantity over unit": [
    `t/s;T/ms\n${lines((p, i) => `${10 * i};${(1e3 * p).toFixed(5).replace(".", ",")}`)}`,
  ],
  "names in a comment": [
    `# time period_us\n${lines((p, i) => `${10 * i} ${(1e6 * p).toFixed(2)}`)}`,
  ],
  "a preamble with numbers": [
    `Counter log\nGate: 10 s\nStart 14.05.2031 08:00\n\n${lines((p) => `${p.toFixed(8)} s`)}`,
    {},
    ["skipped_line", "skipped_line", "skipped_line"],
  ],
  "a footer with numbers": [
    `${lines((p) => `${p.toFixed(8)} s`)}end of log\nMean: 1.00001 s\n1.00000123 s mean\n`,
    {},
    ["skipped_line", "skipped_line", "skipped_line"],
  ],
  "a footer under columns": [
    `n;period_s\n${lines((p, i) => `${i};${p.toFixed(8).replace(".", ",")}`)}Mean;1,00001\n;1,00002\n`,
    {},
    ["skipped_line", "skipped_line"],
  ],
  "decimal commas alone": [lines((p) => p.toFixed(8).replace(".", ","))],
  "a log of a program": [
    lines(
      (p, i) =>
        `2031-05-14 ${clock(i)},${String((i * 37) % 1000).padStart(3, "0")} INFO counter: ${p.toFixed(8)}`,
    ),
  ],
  "commas before thousandths and between columns": [
    `time,period\n${lines((p, i) => `2031-05-14 ${clock(i)},${String((i * 37) % 1000).padStart(3, "0")},${p.toFixed(8)}`)}`,
  ],
  "ISO 8601 with T and Z": [lines((p, i) => `2031-05-14T${clock(i)}.123Z ${p.toFixed(8)}`)],
  "ISO 8601 without separators": [
    lines((p, i) => `20310514T${clock(i).replaceAll(":", "")}Z ${p.toFixed(8)}`),
  ],
  "ISO 8601 with a zone": [lines((p, i) => `2031-05-14T${clock(i)}+02:00,${p.toFixed(8)}`)],
  "Unix seconds": [lines((p, i) => `${1715672400 + 10 * i} ${p.toFixed(8)}`)],
  "Unix milliseconds": [lines((p, i) => `${1000 * (1715672400 + 10 * i)},${p.toFixed(8)}`)],
  "day numbers": [
    `mjd period_s\n${lines((p, i) => `${(60444.5 + i / 8640).toFixed(8)} ${p.toFixed(8)}`)}`,
  ],
  "a date in a column of its own": [
    `Datum;Uhrzeit;Periode [s]\n${lines((p, i) => `14.05.2031;${clock(i)};${p.toFixed(8).replace(".", ",")}`)}`,
  ],
  "months in words": [lines((p, i) => `14-May-2031 ${clock(i)};${p.toFixed(8)}`)],
  "the date of a system log": [
    lines((p, i) => `May 14 ${clock(i)} bench counter[312]: ${p.toFixed(8)}`),
  ],
  "a date with the year at its end": [
    lines((p, i) => `Wed May 14 ${clock(i)} 2031 ${p.toFixed(8)}`),
  ],
  "midnight passed": [lines((p, i) => `${clock(i, 86400 - 50)} ${p.toFixed(8)}`)],
  "midnight passed in dates that may be read in two ways": [
    lines((p, i) => `0${i < 5 ? 5 : 6}/07/2031 ${clock(i, 86400 - 50)} ${p.toFixed(8)}`),
  ],
  "noon in halves of a day": [
    lines(
      (p, i) =>
        `05/14/2031 ${i < 5 ? "11:59" : i < 11 ? "12:00" : "12:01"}:${two((10 + 10 * i) % 60)} ${i < 5 ? "AM" : "PM"}, ${p.toFixed(8)}`,
    ),
  ],
  "a gap": [lines((p, i) => `${clock(i < 5 ? i : i + 3)} ${p.toFixed(8)}`), {}, ["gap"]],
  "a clock set back": [
    lines((p, i) => `${clock(i < 5 ? 720 + i : 360 + i)} ${p.toFixed(8)}`),
    {},
    ["clock_change"],
  ],
  "a clock set forward": [
    lines((p, i) => `${clock(i < 5 ? i : 360 + i)} ${p.toFixed(8)}`),
    {},
    ["clock_change"],
  ],
  "an order of dates that is said": [
    lines((p, i) => `05/06/2031 ${clock(i)} ${p.toFixed(8)}`),
    { dates: "month-first" },
  ],
};

describe("logs of all sorts", () => {
  it.each(Object.entries(logs))("%s", (_, [text, options, due = []]) => {
    const { readings, notes } = readLog(text, {
      file: "f",
      nominalPeriod: 1,
      gate: 10,
      backToBack: true,
      ...options,
    });
    const { period, stamps } = readings as PeriodReadings;
    const there = [...period].filter((p) => !Number.isNaN(p));
    expect(there.length).toBe(periods.length);
    there.forEach((p, i) => void expect(Math.abs(p - periods[i]!)).toBeLessThan(1.1e-8));
    expect(
      notes.filter(({ code }) => code !== "assumed_dead_time").map(({ code }) => code),
    ).toEqual(due);
    if (stamps === undefined) return;
    const arrival = [...stamps.arrival].filter((t) => !Number.isNaN(t));
    const last = due[0] === "gap" ? 140 : 110;
    expect(Math.abs(arrival.at(-1)! - last)).toBeLessThan(1);
  });

  it.each([["OVERFLOW"], ["----"], ["NaN"], ["9.91000000E+37"], ["-1.00000000"], ["0.00000000"]])(
    "keeps the place of %s",
    (mark) => {
      const text = lines((p, i) => (i === 5 ? mark : p.toFixed(8)));
      const { readings, notes } = readLog(text, {
        file: "f",
        nominalPeriod: 1,
        gate: 10,
        backToBack: true,
      });
      const { period } = readings as PeriodReadings;
      expect([...period].map(Number.isNaN).indexOf(true)).toBe(5);
      expect(period.length).toBe(12);
      expect(notes.map(({ code, line }) => [code, line])).toEqual([["skipped_line", 6]]);
    },
  );

  it.each([
    ["dots that may be groups", lines((p) => p.toFixed(6).replace(/(\d{3})$/, ".$1"))],
    ["a unit that may be two", lines((p) => `${p.toFixed(8)} mhz`)],
    ["volts", lines((p) => `${p.toFixed(8)} V`)],
    [
      "two columns alike",
      `ch1 (s),ch2 (s)\n${lines((p) => `${p.toFixed(8)},${(2 - p).toFixed(8)}`)}`,
    ],
    [
      "decimal commas between commas",
      lines((p, i) => `${clock(i)},${(p + 1e-4).toFixed(8).replace(".", ",")}`),
    ],
    ["dates of either order", lines((p, i) => `05/06/2031 ${clock(i)} ${p.toFixed(8)}`)],
    ["junk on every fourth line", lines((p, i) => (i % 4 === 1 ? "junk 1x2y" : p.toFixed(8)))],
  ])("refuses %s", (_, text) => {
    expect(() => readLog(text, { file: "f", nominalPeriod: 1 })).toThrow(InputError);
  });

  it("takes bare numbers for what --nominal-period or --nominal-frequency says, and a unit before both", () => {
    const bare = lines((p) => p.toFixed(8));
    const first = (text: string, options: Partial<LogOptions>) =>
      (
        readLog(text, { file: "f", gate: 10, backToBack: true, ...options })
          .readings as PeriodReadings
      ).period[0]!;
    expect(first(bare, { nominalPeriod: 1 })).toBe(0.99997103);
    expect(first(bare, { nominalPeriod: 1, isFrequency: true })).toBe(1 / 0.99997103);
    expect(
      first(
        lines((p) => `${p.toFixed(8)} s`),
        { nominalPeriod: 1, isFrequency: true },
      ),
    ).toBe(0.99997103);
    expect(
      first(
        lines((p) => `${p.toFixed(8)} Hz`),
        { nominalPeriod: 1 },
      ),
    ).toBe(1 / 0.99997103);
    const { notes } = readLog(bare, { file: "f", gate: 10, backToBack: true });
    expect(notes.map(({ code }) => code)).toEqual(["assumed_period"]);
    // The mean sidereal second: 1/1.00273790935 s (IERS Conventions, from memory).
    const sidereal = lines((p) => `${(p / 1.00273790935).toFixed(10)} s`);
    const { readings } = readLog(sidereal, { file: "f", gate: 10, backToBack: true });
    expect((readings as PeriodReadings).nominalPeriod).toBeCloseTo(1 / 1.00273790935, 12);
  });
});

describe("a last line without its end", () => {
  it.each([
    ["decimals as many as on all lines", "1.00001\n0.99998\n1.00000\n", "0.99997", 4],
    ["a number behind an index that has grown", "9, 1.00001\n", "10, 0.99997", 2],
    ["a unit behind it", "P: 1.00001 s\nP: 1.00 s\n", "P: 0.99997 s", 3],
    ["a temperature behind it", "1.00001,21.5\n0.99998,21.4\n", "0.99997,21.4", 3],
    ["decimals fewer than on all lines", "1.00001\n0.99998\n1.00000\n", "0.9999", 3],
    ["decimals that vary", "1.00001\n0.9999\n1\n", "0.9999", 3],
    ["a digit more before the decimal sign", "999999.99\n999999.98\n", "1000000.0", 2],
    ["a whole number that may lack its last digit", "9999999\n9999998\n", "1000000", 2],
    ["a column less", "1.00001,21.50\n0.99998,21.41\n", "1.00", 2],
    ["an exponent that may lack a digit", "1.00E-6\n1.01E-6\n", "1.02E-1", 2],
    ["half a unit", "1000.01 ms\n1000.02 ms\n", "1000.03 m", 2],
  ] as const)("and %s", (_, text, rest, count) => {
    const unit = /E-/.test(text)
      ? { column: "rate" }
      : { nominalPeriod: /^9{7}/.test(text) ? 1e7 : /^9{6}\./.test(text) ? 1e6 : 1 };
    const { readings, notes } = readLog(text + rest, { file: "f", gate: 1, ...unit });
    expect((readings as PeriodReadings).period.length).toBe(count);
    // Taken or not, it is told.
    expect(notes.filter(({ code }) => code === "cut_line")).toHaveLength(1);
  });
});

describe("a log without end", () => {
  /** Bytes of zeros, line after line or not, fed in pieces. */
  const fed = (piece: string, times: number) => {
    const reader = new LogReader({ file: "f", nominalPeriod: 1 });
    const bytes = new TextEncoder().encode(piece);
    for (let i = 0; i < times; i++) reader.add(bytes);
    return reader;
  };

  it.each([
    ["a line of 10 MB", "0".repeat(65536), 160],
    ["a line of a million columns", "1.0,".repeat(16384), 62],
    ["a million lines of junk", "what is this 5\n".repeat(1000), 1000],
    ["a million empty lines", "\n".repeat(1000), 1000],
    ["a million lines of zeros", "\u0000\n".repeat(1000), 1000],
    [
      "a million unlike lines",
      Array.from({ length: 1000 }, (_, i) => `${"~".repeat(i % 90)}${i}\n`).join(""),
      1000,
    ],
  ])("of %s is refused with a short message, in seconds", (_, piece, times) => {
    const begin = process.cpuUsage();
    expect(() => fed(piece, times).end()).toThrow(/^.{10,400}$/);
    const { user, system } = process.cpuUsage(begin);
    // Quadratic work would take minutes.
    expect((user + system) / 1e6).toBeLessThan(20);
  });

  it.each([
    [
      "whole stamps and microseconds",
      (i: number) => `${i + 1.7e9},${1e6 + (i % 7)}\n`,
      "n,period_us\n",
    ],
    ["junk on each tenth line", (i: number) => (i % 11 === 3 ? "??\n" : `1.00000${i % 10}\n`), ""],
    ["lines of many shapes", (i: number) => `${" ".repeat(i % 50)}1.00000${i % 10} s\n`, ""],
  ])("of %s is read in a time that grows with its length", (_, line, head) => {
    const timeOf = (count: number) => {
      const bytes = new TextEncoder().encode(
        head + Array.from({ length: count }, (_, i) => line(i)).join(""),
      );
      const begin = process.cpuUsage();
      const reader = new LogReader({
        file: "f",
        nominalPeriod: 1,
        ...(head === "" ? {} : { column: "period_us" }),
      });
      for (let from = 0; from < bytes.length; from += 1 << 20)
        reader.add(bytes.subarray(from, from + (1 << 20)));
      expect(reader.end().readings).toBeDefined();
      const { user, system } = process.cpuUsage(begin);
      return (user + system) / 1e6;
    };
    timeOf(10_000);
    // Tenfold the lines in not much more than tenfold the time: hundredfold would be quadratic.
    expect(timeOf(200_000)).toBeLessThan(40 * timeOf(20_000) + 1);
  });

  it("keeps what stands before and after a line that is too long", () => {
    const long = "x".repeat(1_000_000);
    const rows = lines((p) => p.toFixed(8));
    const { readings, notes } = readLog(`${rows}${rows}${long}\n${rows}`, {
      file: "f",
      nominalPeriod: 1,
    });
    expect((readings as PeriodReadings).period.length).toBe(36);
    expect(notes[0]).toMatchObject({ code: "skipped_line", line: 25 });
  });
});
