import type { Column } from "./column.ts";

/** What can make a tick; the order is that of the codes in a bulk column. */
export const tickSources = ["drive", "fallback"] as const;

/** Columns of ticks.csv. */
export const ticksColumns: readonly Column[] = [
  {
    name: "tick",
    type: "integer",
    title: "Tick",
    description: "Number n of the tick; it nominally falls n periods after the start of the run",
    unit: "1",
    required: true,
  },
  {
    name: "time_error_s",
    type: "number",
    title: "Time error (s)",
    description: "How much the tick is early (positive) or late (negative) against true time",
    unit: "s",
    required: true,
  },
  {
    name: "source",
    type: "string",
    title: "Source",
    description:
      "What made the tick: the drive, or the clock's own oscillator while the drive was lost",
    unit: null,
    required: true,
    words: tickSources,
  },
];
