import { parentPort } from "node:worker_threads";
import { doJob, type EnsembleJob } from "./ensemble-job.ts";

/** What a worker answers: the result of a job, or why there is none. */
export type WorkerAnswer =
  | { readonly index: number; readonly result: unknown }
  | { readonly index: number; readonly failure: string };

parentPort?.on("message", ({ index, job }: { index: number; job: EnsembleJob }) => {
  let answer: WorkerAnswer;
  try {
    answer = { index, result: doJob(job) };
  } catch (error) {
    answer = {
      index,
      failure: error instanceof Error ? (error.stack ?? error.message) : `${error}`,
    };
  }
  parentPort?.postMessage(answer);
});
