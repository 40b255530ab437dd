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
const scattered = [...Array(40).keys()].map((i) => 1 + 1e-3 * ((i * Math.SQRT2) % 1)).join("\n");

/** Readings that cannot be read, or not without an assumption. */
export const readingsSamples: readonly Sample[] = [
  judged("", second, /^tickwright: r\.csv: holds no readings; expected at least one number a line/),
  judged("period_s\n", second, /r\.csv:1: "period_s" is no reading; expected a line of numbers/),
  judged("2031-02-28\n2031-03-01\n", second, /r\.csv:1: .* is a time stamp and no reading; expec/),
  judged(
    'us\n"1,999,972"\n',
    second,
    /r\.csv:2: "1,999,972" is no reading; .* thousands not set off/,
  ),
  judged("Period [ms]\n999.9\n", second, /r\.csv:1: "Period \[ms\]" is in another unit than peri/),
  judged(
    four,
    `${second} --back-to-back --dead-time 2`,
    /^tickwright: --back-to-back means no dead time, --dead-time 2 means some; give one of the two/,
  ),
  judged(
    "n;Temp (°C);period_s\n1;20;1.0\n",
    `${second} --temperature t`,
    /r\.csv:1: has no column "t" with a temperature; it has "n", "Temp \(°C\)", "period_s"/,
  ),
  judged("period_s\nNaN,1\n", `${second} --column 1`, /holds no readings: every value is missing/),
  judged(
    "date;time;period_s\n2031-05-04;08:12;1,0\n",
    second,
    /r\.csv:2: keeps the date "2031-05-04" and the time "08:12" in two columns; join them in one/,
  ),
  judged(
    "nr,period_s\n1,1.0,\n",
    second,
    /r\.csv:1: .*; it has 3 columns, and 2 names in the line/,
  ),
  judged("a\u0000b", second, /is not a text file: it holds zero bytes; expected CSV in UTF-8/),
  judged(
    "1,12\n1,13\n",
    second,
    /r\.csv:1: "1,12" may be one number .* or two columns; write a decimal/,
  ),
  judged(
    'period_s\n"1.0\n',
    second,
    /r\.csv:2: quotes are not as they must be: one is not closed; close every quote/,
  ),
  judged(
    "period_s\n1.0\nabc\n",
    second,
    /r\.csv:3: "abc" in period_s is not a number; expected one/,
  ),
  judged("period_s;n\n1,5;1\n1.5;2\n", second, /decimal commas; expected one kind throughout/),
  judged(
    "period_s,n\n1.0,1\n1,0,2\n",
    second,
    /r\.csv:3: has 3 fields where .* has 2; every line needs/,
  ),
  judged(
    "time,period_s\n2031-02-30,1\n",
    second,
    /"2031-02-30" is no time stamp; expected ISO 8601/,
  ),
  judged(
    "time,period_s\n9,1\n5,1\n",
    second,
    /r\.csv:3: the time stamp is not later .*; readings must/,
  ),
  judged(
    "time,period_s\n1,1\n2,1\n9e5,1\n",
    second,
    /lies \d+ spacings after .*; expected a record that/,
  ),
  judged(
    "time,time_error_s\n1,0\n2,0\n3.5,0\n",
    "",
    /are not evenly spaced .*; expected one spacing/,
  ),
  judged("time_error_s\n0\n1e-6\n", "", /does not say how far apart .*; give --gate, or a column/),
  judged(
    "a,b\n1,2\n",
    second,
    /does not say which column .*; name one of .*, or give --column; it has "a"/,
  ),
  judged(`period_s\n${four}`, "--column x", /r\.csv:1: has no column "x"; it has "period_s"/),
  judged(
    "x\n1000\n1001\n",
    second,
    /r\.csv:2: does not say what column 1 holds, .*; put a line with one/,
  ),
  judged("period_s\n1.0\n-1.0\n", second, /r\.csv:3: -1 is no period_s; expected one above 0/),
  judged("period_s\n0.001\n0.001\n", second, /far from the nominal 1 s/),
  judged(
    `period_s\n${four}`,
    "",
    /does not say what the nominal period is; give --nominal-period, in s/,
  ),
  judged(
    "start_s,cycles,period_s\n0,0,1.0\n",
    second,
    /0 cycles make no reading; expected one or more/,
  ),
  judged(
    `period_s\n${four}`,
    `${second} --temperature t_c`,
    /r\.csv:1: has no column "t_c" with a/,
  ),
  judged(
    `t_c,period_s\n${four
      .replace(/^/gm, "20,")
      .trimEnd()
      .replace(/\n20,$/, "")}\n`,
    `${second} --temperature t_c`,
    /r\.csv: --temperature: at least 10 readings must have a temperature, got 4/,
  ),
  judged(`period_s\n${four}`, `${second} --slip-unit 2`, /--slip-unit: must not be above 1 cycle/),
  {
    args: "fit r.csv --nominal-period 1 --gate 1 --back-to-back",
    files: { "r.csv": `period_s\n${four}` },
    says: /r\.csv: readings must hold at least 20 in one stretch, got 4/,
  },
  noted(four, second, /the readings are taken as periods in s; name the column frequency_hz/),
  noted(`period_s\n${four}`, second, /each reading is taken as one period long; give --gate if/),
  noted(`period_s\n${four}`, `${second} --gate 1`, /dead time is assumed; give --back-to-back if/),
  noted(
    stamped("1 2 3 4.5 5.5 6.5 8 9"),
    `${second} --gate 1`,
    /the time stamps are not evenly spaced, so that gaps cannot be told from them/,
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
  {
    args: "fit r.csv --nominal-period 1 --gate 1 --back-to-back",
    files: { "r.csv": `period_s\n${scattered}` },
    status: 0,
    says: /ageing does not show in the readings/,
  },
  {
    args: "fit r.csv --nominal-period 1 --gate 1 --back-to-back",
    files: { "r.csv": `period_s\n${scattered}` },
    status: 0,
    says: /does not show in the readings: only its upper limit is known/,
  },
  {
    args: "fit r.csv --nominal-period 1 --gate 1 --back-to-back",
    files: { "r.csv": `period_s\n${scattered}` },
    status: 0,
    says: /an offset of the counter's time base cannot be told from one of the clock/,
  },
];
