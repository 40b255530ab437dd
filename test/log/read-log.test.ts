import { describe, expect, it } from "vitest";
import { type LogOptions, readLog } from "../../src/log/index.ts";
import type { Note, PeriodReadings, TimeErrorReadings } from "../../src/readings/index.ts";
import { InputError } from "../../src/readings/index.ts";

const told = (notes: readonly Note[]) => notes.map(({ message }) => message);
const parse = (text: string, options: Partial<LogOptions> = {}) =>
  readLog(`${text.trimEnd()}\n`, { file: "r.csv", ...options });
const periods = (text: string, options: Partial<LogOptions> = {}) =>
  parse(text, { nominalPeriod: 1, ...options }).readings as PeriodReadings;
const errors = (text: string, options: Partial<LogOptions> = {}) =>
  parse(text, options).readings as TimeErrorReadings;

describe("readLog", () => {
  it.each([
    [
      "a title, blank lines, comments",
      "Test of May\n\n# a remark\nperiod_s\n1.001\n% more\n1.002\n",
    ],
    ["a byte-order mark and CRLF", "\uFEFFperiod_s\r\n1.001\r\n1.002\r\n"],
    ["semicolons and decimal commas", "period_s;remark\n1,001;a\n1,002;b\n"],
    ["tabs", "remark\tperiod_s\na\t1.001\nb\t1.002"],
    ["blanks", "n period_s\n1  1.001\n2  1.002"],
    ["quotes", '"period_s","remark"\n"1.001","a, b"\n"1.002","c ""d"""\n'],
    ["one number a line", "1.001\n1.002"],
    ["one number a line with decimal commas", "1,001\n1,002"],
    ["units in brackets", "Period [s],x\n1.001,5\n1.002,6"],
    ["frequencies", `frequency_hz\n${1 / 1.001}\n${1 / 1.002}`],
    ["rates", `rate\n${1 / 1.001 - 1}\n${1 / 1.002 - 1}`],
    ["title with the delimiter in it", "Test; of; May\nperiod_s;n\n1.001;1\n1.002;2"],
  ])("copes with %s", (_, text) => {
    const { period } = periods(text);
    expect([...period].map((p) => p.toFixed(9))).toEqual(["1.001000000", "1.002000000"]);
  });

  it("keeps missing values as gaps", () => {
    const { period, cycles } = periods("period_s,n\n1.001,1\n,2\nNaN,3\nn/a,4\n1.002,5");
    expect([...period].map(Number.isNaN)).toEqual([false, true, true, true, false]);
    expect([...cycles].map(Number.isNaN)).toEqual([false, true, true, true, false]);
  });

  it("reads what the tool itself writes: cycles, starts, nominal period, back to back", () => {
    const text = [
      "reading,start_s,cycles,period_s,frequency_hz,rate,flag",
      `0,0.5,10,1.25,0.8,${1.25 / 1.25 - 1},`,
      `1,13,10,1.2500025,${1 / 1.2500025},${1.25 / 1.2500025 - 1},"missed, late"`,
      `2,25.500025,10,,,,no_edge`,
      `3,38,10,1.25,0.8,0,`,
    ].join("\r\n");
    const { readings, quantity, notes } = parse(text);
    const r = readings as PeriodReadings;
    expect([quantity, r.nominalPeriod, r.backToBack, notes]).toEqual(["period_s", 1.25, true, []]);
    expect([...r.start!]).toEqual([0, 12.5, 25.000025, 37.5]);
    expect([...r.line!]).toEqual([2, 3, 4, 5]);
  });

  it("tells dead time from starts, and holes in time stamps from spacing", () => {
    const rows = [0, 15, 30, 60, 75].map((t) => `${t},10,1.0`).join("\n");
    const { readings } = parse(`start_s,cycles,period_s\n${rows}`, { nominalPeriod: 1 });
    const r = readings as PeriodReadings;
    expect([r.backToBack, r.deadTime]).toEqual([false, 5]);
    expect([...r.period].map(Number.isNaN)).toEqual([false, false, false, true, false, false]);
    expect([...r.line!]).toEqual([2, 3, 4, 0, 5, 6]);
  });

  it("takes ISO 8601 and day numbers as time stamps", () => {
    const iso =
      "time,time_error_s\n2031-02-28T23:59:50Z,1\n2031-03-01T01:00:00+01:00,2\n2031-03-01 00:00:20,3";
    expect(errors(iso)).toMatchObject({
      kind: "time_error",
      timeError: Float64Array.of(1, 2, Number.NaN, 3),
      spacing: 10,
    });
    const days = errors("mjd;time_error_s\n61000,25;1e-3\n61000,50;2e-3\n61001,00;4e-3");
    expect(days.spacing).toBe(21600);
    expect([...days.timeError]).toEqual([1e-3, 2e-3, Number.NaN, 4e-3]);
  });

  it("takes a date with a time of day for a time stamp, whatever its column is called", () => {
    const rows = ["2031-05-04 00:00:00,1", "2031-05-04 00:00:10,2", "2031-05-04 00:00:30,3"];
    const errorsOf = (names: string) => errors([names, ...rows].join("\n"));
    for (const names of ["Time (UTC),time_error_s", "when,time_error_s"]) {
      expect([...errorsOf(names).timeError], names).toEqual([1, 2, Number.NaN, 3]);
    }
    // One that is named so comes first; a date alone may be that of anything else.
    expect(
      errors("written,t_s,time_error_s\n2031-05-04 00:00,0,1\n2031-05-04 00:00,5,2").spacing,
    ).toBe(5);
    const dated = "calibrated,period_s\n2031-05-04,1\n2031-05-04,1\n";
    expect(parse(dated, { nominalPeriod: 1 }).readings).toMatchObject({ kind: "period" });
  });

  it("tells of a 60th second, and takes it for the first of the next minute", () => {
    const text = "2016-12-31T23:59:58Z,1.1\n2016-12-31T23:59:59Z,1.2\n2016-12-31T23:59:60Z,1.3\n";
    const { readings, notes } = readLog(text, { file: "f", nominalPeriod: 1.2 });
    expect(readings.stamps?.arrival).toEqual(Float64Array.of(0, 1, 2));
    expect(notes.filter(({ code }) => code === "clock_change")).toMatchObject([{ line: 3 }]);
  });

  it("takes 24:00 for the end of a day, and nothing after it", () => {
    // ISO 8601:2004, 4.2.3: 24:00:00 is the same moment as 00:00:00 of the next day.
    const rows = (second: string) => `time,time_error_s\n2031-02-28T23:59:50,1\n${second},2`;
    expect(errors(rows("2031-02-28T24:00:00")).spacing).toBe(10);
    for (const late of ["24:00:01", "24:30", "25:00"]) {
      const { readings, notes } = parse(`${rows("2031-02-28T24:00:00")}
2031-02-28T${late},3`);
      expect([(readings as TimeErrorReadings).timeError.length, notes[0]!.code]).toEqual([
        2,
        "skipped_line",
      ]);
    }
  });

  it("takes the dead time from time stamps, whatever they are rounded to", () => {
    const lines = (spacing: number, write: (t: number) => string, holes: readonly number[] = []) =>
      Array.from({ length: 60 }, (_, i) => i)
        .filter((i) => !holes.includes(i))
        .map((i) => `${write(i * spacing)},1.0`)
        .join("\n");
    const iso = (t: number) => new Date(1.9e12 + 1000 * t).toISOString();
    const days = (digits: number) => (t: number) => (61000 + t / 86400).toFixed(digits);
    const dead = (text: string, options: Partial<LogOptions> = {}) => {
      const { readings, notes } = parse(text, { nominalPeriod: 1, gate: 10, ...options });
      return { ...(readings as PeriodReadings), notes: told(notes).join("; ") };
    };
    const known = dead(`time,period_s\n${lines(12, iso, [7, 8, 30])}`);
    expect([known.deadTime, known.backToBack]).toEqual([2, false]);
    expect([...known.period].flatMap((p, i) => (Number.isNaN(p) ? [i] : []))).toEqual([7, 8, 30]);
    expect(known.notes).toMatch(/12 s apart and a reading lasts 10 s, so that .* taken as 2 s/);
    // Whole seconds: steps of 12 and 13 s, which only together tell 12.4 s.
    const whole = dead(`time,period_s\n${lines(12.4, (t) => iso(Math.floor(t)), [20])}`);
    expect(whole.deadTime).toBeCloseTo(2.4, 1);
    expect(dead(`mjd,period_s\n${lines(12.4, days(9))}`).deadTime).toBeCloseTo(2.4, 5);
    const none = dead(`time,period_s\n${lines(10, iso)}`);
    expect([none.deadTime, none.backToBack]).toEqual([0, false]);
    expect(none.notes).toMatch(/leave no dead time, to within 0.001 s, but do not prove/);
    const overlapping = dead(`time,period_s\n${lines(9, iso)}`);
    expect(overlapping.deadTime).toBeUndefined();
    expect(overlapping.notes).toMatch(/9 s apart, less than the 10 s of a reading/);
    const coarse = dead("day,period_s\n61000,1\n61001,1\n61002,1", { gate: 86400 });
    expect(coarse.deadTime).toBeUndefined();
    expect(coarse.notes).toMatch(/too coarse to tell the dead time/);
    const said = dead(`time,period_s\n${lines(12, iso)}`, { backToBack: true });
    expect(said.deadTime).toBe(0);
    expect(said.notes).toMatch(/12 s apart, not the 10 s that readings of 10 s back to back are/);
    expect(dead(`time,period_s\n${lines(12, iso)}`, { deadTime: 2 }).notes).toBe("");
  });

  it("takes what a dead time leaves of the spacing for the length of a rate's reading", () => {
    const text = "time_s,rate\n0,1e-9\n12,2e-9\n24,1e-9\n";
    const { readings, notes } = parse(text, { deadTime: 2 });
    expect(readings).toMatchObject({ nominalPeriod: 10, deadTime: 2, backToBack: false });
    expect(notes).toEqual([]);
  });

  it.each(["time_s,rate\n0,1e-9\n", "start_s,rate\n0,1e-9\n", "time_s,rate\n0,1e-9\n,1e-9\n"])(
    "reads stamps that tell no spacing as none: %j",
    (text) => {
      const { readings, notes } = parse(text);
      expect(readings).toMatchObject({ kind: "period", nominalPeriod: 1 });
      expect(told(notes).join()).not.toMatch(/NaN/);
      expect(() => parse(text.replace("rate", "time_error_s"))).toThrow(/give --gate/);
    },
  );

  it("keeps the digits of stamps that one double would round", () => {
    const at = (text: string) => errors(`${text.replaceAll(" ", ",1e-3\n")},1e-3`).spacing;
    // A double near 61000 days steps by 0.6 µs, one near 2e9 s by 0.2 µs.
    expect(at("mjd,time_error_s\n61000.000000000000 61000.000000000100")).toBeCloseTo(8.64e-6, 15);
    expect(at("time_s,time_error_s\n1900000000.0000000 1900000000.0000010")).toBeCloseTo(1e-6, 15);
    expect(
      at("time,time_error_s\n2031-03-01T23:59:59.9999999Z 2031-03-02T00:00:00.0000009Z"),
    ).toBeCloseTo(1e-6, 10);
  });

  it("takes the column it is told to, by name or number, and a temperature", () => {
    const text = "t_c,my period\n20.5,1.001\n21,1.002";
    expect([...periods(text, { column: "My Period" }).period]).toEqual([1.001, 1.002]);
    expect([...periods("20.5,1.001\n21,1.002", { column: "2" }).period]).toEqual([1.001, 1.002]);
    const { temperature } = parse(text, {
      column: "my period",
      nominalPeriod: 1,
      temperature: "t_c",
    }).readings;
    expect([...temperature!]).toEqual([20.5, 21]);
  });

  it("makes cycles from the gate, and says what it assumed", () => {
    expect([...periods("1.001\n1.002", { gate: 50, backToBack: true }).cycles]).toEqual([50, 50]);
    const { notes } = parse("1.0001\n1.0002");
    expect(told(notes)).toEqual([
      expect.stringMatching(/taken as periods in s, and the nominal period is taken as 1 s/),
      expect.stringMatching(/one period long/),
      expect.stringMatching(/dead time is assumed/),
    ]);
  });

  it.each([
    ["", null, /holds no readings/],
    ["period_s\n", 1, /"period_s" is no reading; .* below the names of the columns/],
    ["time\n2031-02-28T00:00\n2031-02-28T00:01\n", 2, /T00:00" is no reading; expected/],
    ["Period [ms]\n1\n1.001\n", 2, /far from the nominal 1 s; .*--nominal-period\?\)/],
    ["n,freq\n1,2.0\n", 2, /readings in frequency_hz give a period of 0.5 s, far from/],
    ["period_s\n1.0 Hz\n", null, /has readings in another unit than a period_s has/],
    ["ch1 (s),ch2 (s)\n1.0,1.05\n", null, /does not say which column .* or give --column/],
    [
      "period_s\n1.0\nabc\n1.0\n",
      3,
      /1 of 3 lines are no readings, more than a tenth; the first are line 3 "abc"; comment/,
    ],
    ["period_s;n\n1,5;1\n1,5;2\n1.5;3\n1,1;4\n", 4, /1 of 4 lines are no readings/],
    ["time,period\n8:00,1,002\n8:01,0,998\n", null, /has 3 columns, and 2 names in the line above/],
    ["8:00,1,002\n8:01,1,003\n", null, /"8:00,1,002", where a comma may be decimal or part two/],
    ["1.0\n\u001b[2J\u0007 \u202e1\n1.0\n", 2, /line 2 "\\x1b\[2J\\x07 \\u202e1"/],
    ["time,time_error_s\n2031-02-30T00:00:00Z,1\n", 2, /02-30T00:00:00Z,1" holds no readings/],
    ["time,period_s\n10,1.0\n5,1.0\n", 3, /earlier than the one before/],
    [
      "05/06/2031 8:00,1.0\n05/06/2031 8:01,1.0\n",
      1,
      /05\/06 that do not tell .*--dates day-first/,
    ],
    ["05/13/2031 8:00,1.0\n13/05/2031 8:01,1.0\n", 1, /some with the day and some with the month/],
    ["start_s,cycles,period_s\n0,0,1.0\n", 2, /0 cycles make no reading/],
    ["time,time_error_s\n1,0\n2,0\n3.5,0\n", 2, /not evenly spaced/],
    ["period_s\n\u0000", 2, /"\\x00" is no reading/],
    ["rate\n0.5\n-1\n", 3, /-1 is no rate; expected one above -1/],
  ])("says in one error what is wrong with %j", (text, line, message) => {
    try {
      parse(text, { nominalPeriod: 1 });
      expect.unreachable("expected an InputError");
    } catch (error) {
      expect(error).toBeInstanceOf(InputError);
      const { file, line: at, message: said } = error as InputError;
      expect(file).toBe("r.csv");
      expect(said).toMatch(message);
      if (line !== null) expect(at).toBe(line);
    }
  });

  it("asks for what it cannot know: nominal period, spacing", () => {
    expect(() => parse("period_s\n1.1\n1.1")).toThrow(
      /give --nominal-period in s, or --nominal-fre/,
    );
    expect(() => parse("time_error_s\n1.0\n1.0")).toThrow(/give --gate/);
    expect(() => parse("n,period_s\n1,1.0", { column: "x" })).toThrow(/no column "x"; it has "n"/);
    expect(() => parse("n,period_s\n1,1.0", { temperature: "t" })).toThrow(/no column "t"/);
  });
});
