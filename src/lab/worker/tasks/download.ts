import { Simulation, settleRun } from "../../../chain/index.ts";
import { readingsRows } from "../../../view/table/index.ts";
import { runToEnd } from "../run-lesson.ts";
import type { Task } from "../task.ts";

/** The readings of the scenario as it is written, as the command line writes them. */
export const download: Task<"download"> = async ({ scenario }, { seed }, pace) => {
  const { options } = settleRun(scenario, {
    seed,
    length: null,
    readings: null,
    recording: null,
    wantsTicks: false,
    wantsBursts: false,
  });
  const { technique, displayDigits } = scenario.counter;
  const pieces: string[] = [];
  const rows = readingsRows(
    (text) => pieces.push(text),
    technique === "time_interval",
    displayDigits,
  );
  const simulation = new Simulation(scenario, options, { reading: rows.take });
  await runToEnd(simulation, options, pace);
  rows.flush();
  return { csv: new Blob(pieces, { type: "text/csv" }), readings: rows.count() };
};
