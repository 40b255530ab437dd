import type { DataFile } from "../view/table/index.ts";
import { burstsColumns, ticksColumns } from "../view/table/index.ts";
import { readingsColumns } from "./run-writers.ts";
import type { RunOutcome } from "./simulate.ts";

const described = {
  readings: {
    title: "Readings",
    description: "Readings of the counter, in order",
    primaryKey: ["reading"],
  },
  ticks: {
    title: "Ticks",
    description: "Ticks of the clock that the run computed, with their time error",
    primaryKey: ["tick"],
  },
  bursts: {
    title: "Bursts",
    description: "Bursts that arrived or were dropped, with what became of them",
    primaryKey: ["burst"],
  },
} as const;

/** Names of the tables of a run, readings first. */
export const tableNames = ["readings", "ticks", "bursts"] as const;

/** File name of what a run writes. */
export const tableFile = (name: string): string => (name === "log" ? "log.txt" : `${name}.csv`);

/** Descriptions of the tables a run wrote. */
export function dataFiles(outcome: RunOutcome, isTimeInterval: boolean): DataFile[] {
  const columns = {
    readings: readingsColumns(isTimeInterval),
    ticks: ticksColumns,
    bursts: burstsColumns,
  };
  return tableNames
    .filter((name) => outcome.written[name] !== undefined)
    .map((name) => ({
      name,
      path: tableFile(name),
      ...described[name],
      columns: columns[name],
      ...outcome.written[name]!,
    }));
}
