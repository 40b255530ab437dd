import { readingsRows } from "../../../view/table/index.ts";
import { runToEnd, settle } from "../run-lesson.ts";
import type { Task } from "../task.ts";

/** The readings of the scenario as it is written, as the command line writes them. */
export const download: Task<"download"> = async ({ scenario }, { seed }, pace) => {
  const { technique, displayDigits } = scenario.counter;
  const pieces: string[] = [];
  const rows = readingsRows(
    (text) => pieces.push(text),
    technique === "time_interval",
    displayDigits,
  );
  await runToEnd(scenario, settle(scenario, seed, {}), { reading: rows.take }, pace);
  rows.flush();
  return { csv: new Blob(pieces, { type: "text/csv" }), readings: rows.count() };
};
