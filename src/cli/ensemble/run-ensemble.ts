import { availableParallelism } from "node:os";
import { Worker } from "node:worker_threads";
import { ensembleWorker } from "../installed.ts";
import { isInterrupted, watchSignals } from "../interrupt.ts";
import type { EnsembleJob, ResultOf } from "./ensemble-job.ts";
import type { WorkerAnswer } from "./ensemble-worker.ts";

/** Jobs a worker has at hand: the next is there when one is done. */
const atHand = 2;
/** How often the main thread looks whether it was told to stop; ms. */
const glance = 50;

/** How many workers suit this machine: one a core. */
export function coresAtHand(): number {
  return availableParallelism();
}

/**
 * Does independent jobs on worker threads.
 *
 * Which worker does which job, and in what order they end, is left to chance; each job's result does not
 * depend on it. Jobs are taken from the iterator only as workers become free, so that memory stays bounded.
 *
 * @param jobs - jobs with their indices
 * @param workers - how many threads at most
 * @param take - gets each result as it comes; false ends the ensemble, and it is not called again
 * @returns true when all was done, false when interrupted or ended by `take`
 * @throws Error when a job fails, which is a defect
 */
export async function runEnsemble<J extends EnsembleJob>(
  jobs: Iterator<readonly [number, J]>,
  workers: number,
  take: (index: number, result: ResultOf<J>) => boolean | undefined,
): Promise<boolean> {
  watchSignals();
  const team: Worker[] = [];
  let pending = 0;
  let isExhausted = false;
  let isEnded = false;
  const { promise, resolve, reject } = settling();
  const feed = (worker: Worker) => {
    const next = isExhausted ? { done: true as const, value: undefined } : jobs.next();
    if (next.done) {
      isExhausted = true;
      return false;
    }
    const [index, job] = next.value;
    pending++;
    worker.postMessage({ index, job });
    return true;
  };
  const answer = (worker: Worker, message: WorkerAnswer) => {
    // A worker that is told to end still hands over what it has done.
    if (isEnded) return;
    pending--;
    if ("failure" in message) throw new Error(message.failure);
    isEnded = take(message.index, message.result as ResultOf<J>) === false;
    if (isEnded) resolve(false);
    else {
      feed(worker);
      if (pending === 0) resolve(true);
    }
  };
  const guarded = (act: () => void) => () => {
    try {
      act();
    } catch (error) {
      reject(error);
    }
  };
  const timer = setInterval(() => {
    if (isInterrupted()) resolve(false);
  }, glance);
  try {
    if (isInterrupted()) return false;
    while (team.length < workers) {
      const worker = new Worker(ensembleWorker);
      team.push(worker);
      worker.on("message", (message: WorkerAnswer) => guarded(() => answer(worker, message))());
      worker.on("error", reject);
      if (!feed(worker)) break;
    }
    for (let round = 1; round < atHand; round++) team.forEach(feed);
    if (pending === 0) resolve(true);
    return await promise;
  } finally {
    clearInterval(timer);
    await Promise.all(team.map((worker) => worker.terminate()));
  }
}

/** A promise with its handles; what comes after the first settling is of no account. */
function settling() {
  let resolve: (isDone: boolean) => void = () => {};
  let reject: (error: unknown) => void = () => {};
  const promise = new Promise<boolean>((yes, no) => {
    resolve = yes;
    reject = no;
  });
  return { promise, resolve, reject };
}
