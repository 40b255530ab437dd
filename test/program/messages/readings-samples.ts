import type { Sample } from "./sample.ts";

/** A file of readings, what is said beside it, and what `judge` says to it. */
const judged = (content: string | Uint8Array, options: string, says: RegExp): Sample => ({
  args: ["judge", "r.csv", ...(options === "" ? [] : options.split(" "))],
  files: { "r.csv": content },
  says,
});

/** The same, where it is a note to a result. */
const noted = (content: string, options: string, says: RegExp): Sample => ({
  ...judged(content, options, says),
  status: 0,
});

const second = "--nominal-period 1";
const four = "1.001\n1.002\n1.0015\n1.001\n";
/** Readings with time stamps. */
const stamped = (times: string) =>
  `time,period_s\n${times
    .split(" ")
    .map((time, i) => `${time},1.000000${i % 3}\n`)
    .join("")}`;

/** Readings that cannot be read, or not without an assumption. */
export const readingsSamples: readonly Sample[] = [
  judged("", second, /^tickwright: r\.csv: holds no readings; expected at least one number a line/),
  judged("period_s\n", second, /r\.csv:1: "period_s" is no reading; expected a line of numbers/),
  judged(
    "2031-02-28\n2031-03-01\n",
    second,
    /r\.csv:1: "2031-02-28" is no reading; expected a line of numbers/,
  ),
  judged(
    four,
    `${second} --back-to-back --dead-time 2`,
    /^tickwright: --back-to-back means no dead time, --dead-time 2 means some; give one of the two/,
  ),
  judged(
    four,
    `${second} --nominal-frequency 1`,
    /^tickwright: --nominal-period says that bare numbers are periods, .*; give one of the two/,
  ),
  judged(
    "n;Temp (°C);period_s\n1;20;1.0\n",
    `${second} --temperature t`,
    /has no column "t" with a temperature; it has "n", "Temp \(°C\)", "period_s"/,
  ),
  judged(
    "time,period_s\n2031-02-30,1\n",
    second,
    /r\.csv:2: "2031-02-30,1" holds no readings: there is/,
  ),
  judged("period_s\n9e99\n", second, /holds no readings: every value is missing/),
  judged(
    "period_s\n1.0\nabc\n1.1\n",
    second,
    /r\.csv:3: 1 of 3 lines are no readings, more than a tenth; the first are line 3 "abc"; comment/,
  ),
  judged(
    "05/06/2031 08:00,1.0\n05/06/2031 08:01,1.0\n",
    second,
    /r\.csv:1: has dates such as 05\/06 .*; give --dates day-first or --dates month-first/,
  ),
  judged(
    "time,period_s\n9,1\n5,1\n",
    second,
    /r\.csv:3: the time stamp is earlier .*; readings must/,
  ),
  judged(
    "time,time_error_s\n1,0\n2,0\n3.5,0\n",
    "",
    /are not evenly spaced .*; expected one spacing/,
  ),
  judged("time_error_s\n0\n1e-6\n", "", /does not say how far apart .*; give --gate, or a column/),
  judged(
    "ch1 (s);ch2 (s)\n1.0;1.0\n",
    second,
    /does not say which column .*; name one of .*, or give --column; it has "ch1 \(s\)"/,
  ),
  judged(`period_s\n${four}`, "--column x", /r\.csv:2: has no column "x"; it has "period_s"/),
  judged("rate\n0.1\n-1\n", "", /r\.csv:3: -1 is no rate; expected one above -1/),
  judged("period_s\n0.001\n0.001\n", second, /far from the nominal 1 s/),
  judged(
    "period_s\n1.3\n1.3\n",
    "",
    /does not say what the nominal period is; give --nominal-period in s, or --nominal-frequency/,
  ),
  judged(
    "start_s,cycles,period_s\n0,0,1.0\n",
    second,
    /0 cycles make no reading; expected one or more/,
  ),
  judged(
    `t_c,period_s\n${four
      .replace(/^/gm, "20,")
      .trimEnd()
      .replace(/\n20,$/, "")}\n`,
    `${second} --temperature t_c`,
    /r\.csv: --temperature: at least 10 readings with a temperature are needed, got 4/,
  ),
  judged(
    `t_c,period_s\n${"20,1.0001\n20,1.0002\n".repeat(8)}`,
    `${second} --temperature t_c`,
    /--temperature: temperature must change, got a constant/,
  ),
  judged(`period_s\n${four}`, `${second} --slip-unit 2`, /--slip-unit: must not be above 1 cycle/),
  {
    args: "fit r.csv --nominal-period 1 --gate 1 --back-to-back",
    files: { "r.csv": "period_s\n1.0001\n1.0002\n" },
    says: /r\.csv: readings must hold at least/,
  },
  noted(
    "1.0001\n1.0002\n1.0001\n",
    "",
    /the numbers are taken as periods in s, and the nominal period/,
  ),
  noted(`period_s\n${four}`, second, /each reading is taken as one period long; give --gate if/),
  noted(`period_s\n${four}`, `${second} --gate 1`, /dead time is assumed; give --back-to-back if/),
  noted(
    `${four}OVERFLOW\n${four}`,
    second,
    /line 5 has no reading but "OVERFLOW"; its place is kept/,
  ),
  noted(`period_s\n${four}period_s\n${four}`, second, /line 6 begins another run: "period_s"/),
  noted(`${four}1.00`, second, /the last line \(5\) has no end and was dropped: "1.00"/),
  noted("1.001\n1.002\n1.003", second, /the last line \(3\) has no end; it ends as the others do/),
  noted(
    "1.001",
    second,
    /the only line with a number \(1\) has no end; whether it is whole cannot be/,
  ),
  noted(
    stamped("1 2 3 4.5 5.5 6.5 8 9"),
    `${second} --gate 1`,
    /the time stamps are not evenly spaced, so that gaps cannot be told from them/,
  ),
  noted(
    stamped("8:00:00 8:00:10 9:00:20 9:00:30"),
    `${second} --gate 10`,
    /line 4: the clock of the time stamps was set forward by an hour/,
  ),
  noted(
    stamped("23:59:50 23:59:60 0:00:10"),
    `${second} --gate 10`,
    /line 3 is stamped in a 60th second, which counts as the first of the next minute/,
  ),
  noted(
    stamped("1 2 3 4 5 6 7 8 9 10 11 12 1 2 3 4 5 6 7 8 9"),
    `${second} --gate 1`,
    /line 14: the time stamps begin again, as of another run/,
  ),
  noted(
    stamped("1.00 2.00 3.00 6.00 7.00"),
    `${second} --gate 1`,
    /line 5: by the time stamps 2 readings are missing before it/,
  ),
  noted(
    stamped("1.00 2.00 4.00 5.00 7.00 8.00 10.00 11.00 13.00 14.00 16.00 17.00 19.00 20.00 21.00"),
    `${second} --gate 1`,
    /by the time stamps readings are missing at 1 more places/,
  ),
  noted(
    stamped("0.000 12.000 24.000 36.000"),
    `${second} --gate 10 --dead-time 0`,
    /the time stamps are 12 s apart, not the 10 s that readings of 10 s back to back are/,
  ),
  noted(
    stamped("1 2 3 4"),
    `${second} --gate 1`,
    /too coarse to tell the dead time; give --dead-time/,
  ),
  noted(
    stamped("0.000 5.000 10.000 15.000"),
    `${second} --gate 10`,
    /the time stamps are 5 s apart, less than the 10 s of a reading, so that they do not tell/,
  ),
  noted(
    stamped("0.000 0.010 0.020 0.500 0.510"),
    `${second} --gate 10`,
    /stamps are 0\.01 s apart and a reading lasts 10 s, so that gaps cannot be told from them/,
  ),
  noted(
    stamped("0.000 10.000 20.000 30.000"),
    `${second} --gate 10`,
    /the time stamps leave no dead time, .*; give --back-to-back if they share edges/,
  ),
  noted(
    stamped("0.000 12.000 24.000 36.000"),
    `${second} --gate 10`,
    /the time stamps are 12 s apart and a reading lasts 10 s, so that the dead time is taken as 2 s/,
  ),
  noted(
    "time,time_error_s\n1,0\n3,1e-6\n5,3e-6\n7,2e-6\n",
    "--gate 1",
    /the time stamps are 2 s apart, not the 1 s said/,
  ),
];
