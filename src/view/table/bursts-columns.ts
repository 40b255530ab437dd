import type { Column } from "./column.ts";

/** What can become of a burst; the order is that of the codes in a bulk column. */
export const burstOutcomes = ["step", "missed", "blocked", "dropped"] as const;

/** Columns of bursts.csv. */
export const burstsColumns: readonly Column[] = [
  {
    name: "burst",
    type: "integer",
    title: "Burst",
    description:
      "Number n of the burst; it nominally starts n burst periods after the start of the run",
    unit: "1",
    required: true,
  },
  {
    name: "start_error_s",
    type: "number",
    title: "Start error (s)",
    description: "How much the burst starts early (positive) or late (negative) against true time",
    unit: "s",
    required: true,
  },
  {
    name: "delay_s",
    type: "number",
    title: "Delay (s)",
    description: "From the start of the burst to the step it causes; empty where it causes none",
    unit: "s",
    required: false,
  },
  {
    name: "outcome",
    type: "string",
    title: "Outcome",
    description:
      "step: the clock stepped; missed: threshold not reached; blocked: still charged from the burst before; dropped: the burst did not arrive",
    unit: null,
    required: true,
    words: burstOutcomes,
  },
];
