import { type DeviationJob, deviationRun } from "./deviation-run.ts";
import { type Scatter, type ScatterJob, scatterRun } from "./scatter-run.ts";
import { type SweepJob, sweepRun } from "./sweep-run.ts";

/** A run that a worker thread can do: plain data, so that it can be handed over. */
export type EnsembleJob = SweepJob | DeviationJob | ScatterJob;

/** What a job of each kind gives. */
export interface EnsembleResults {
  readonly sweep: ReturnType<typeof sweepRun>;
  readonly deviation: number;
  readonly scatter: Scatter;
}

/** What a certain job gives. */
export type ResultOf<J extends EnsembleJob> = EnsembleResults[J["kind"]];

/** Does a job. */
export function doJob(job: EnsembleJob): EnsembleResults[EnsembleJob["kind"]] {
  switch (job.kind) {
    case "sweep":
      return sweepRun(job);
    case "deviation":
      return deviationRun(job);
    case "scatter":
      return scatterRun(job);
  }
}
