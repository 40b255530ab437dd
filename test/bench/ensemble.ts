import { isMainThread, parentPort, Worker, workerData } from "node:worker_threads";
import { demo, runChain } from "./chains.ts";

/** Seeded runs of the observatory of 2000 ticks each. */
const ticks = 2000;

/** What a worker of this very file does: its share of the runs. */
export function workAsWorker(): boolean {
  if (isMainThread) return false;
  const scenario = demo("observatory");
  for (let i = 0; i < workerData.runs; i++) runChain(scenario, ticks, "bursts");
  parentPort!.postMessage("done");
  return true;
}

/** Wall time of an ensemble on a number of workers, their start included; ms. */
export async function ensembleTime(file: URL, runs: number, workers: number): Promise<number> {
  const begin = performance.now();
  await Promise.all(
    Array.from({ length: workers }, () => {
      const worker = new Worker(file, { workerData: { runs: runs / workers } });
      return new Promise((resolve, reject) => worker.on("message", resolve).on("error", reject));
    }),
  );
  return performance.now() - begin;
}
