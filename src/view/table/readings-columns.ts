import type { Column } from "./column.ts";

const reading: Column = {
  name: "reading",
  type: "integer",
  title: "Reading",
  description: "Serial number of the reading, from 0",
  unit: "1",
  required: true,
};

const start: Column = {
  name: "start_s",
  type: "number",
  title: "Start (s)",
  description: "Start of the reading, after the start of the run, on the counter's own time base",
  unit: "s",
  required: true,
};

const flag: Column = {
  name: "flag",
  type: "string",
  title: "Flag",
  description: "What happened inside the gate, words joined by a space; empty where nothing did",
  unit: null,
  required: false,
};

/** Columns of readings.csv where the counter measures periods, by either counting technique. */
export const periodReadingsColumns: readonly Column[] = [
  reading,
  start,
  {
    name: "cycles",
    type: "integer",
    title: "Cycles",
    description: "Cycles of the signal the reading is made of",
    unit: "{cycle}",
    required: true,
  },
  {
    name: "period_s",
    type: "number",
    title: "Period (s)",
    description:
      "Mean period of the signal over the gate, as the counter shows it; empty without an edge",
    unit: "s",
    required: false,
  },
  {
    name: "frequency_hz",
    type: "number",
    title: "Frequency (Hz)",
    description: "Mean frequency of the signal over the gate: one over the period",
    unit: "Hz",
    required: false,
  },
  {
    name: "rate",
    type: "number",
    title: "Rate (1)",
    description:
      "Fractional frequency offset from nominal, f/f0 - 1, at full precision; positive is fast",
    unit: "1",
    required: false,
  },
  flag,
];

/** Columns of readings.csv where the counter measures from each second of its time base to the next tick. */
export const timeIntervalReadingsColumns: readonly Column[] = [
  reading,
  start,
  {
    name: "time_error_s",
    type: "number",
    title: "Time error (s)",
    description:
      "Time error of the tick against the counter's time base; positive is early, the clock fast",
    unit: "s",
    required: false,
  },
  flag,
];
