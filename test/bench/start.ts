import { spawnSync } from "node:child_process";
import { program } from "./ensemble.ts";
import { median } from "./measure.ts";

/** Wall time of Node with some arguments, from its start to its end; ms. */
function nodeTime(...words: readonly string[]): number {
  const begin = performance.now();
  const { status, stderr } = spawnSync(process.execPath, words, { encoding: "utf8" });
  if (status !== 0) throw new Error(`${words.join(" ")} ended with ${status}: ${stderr}`);
  return performance.now() - begin;
}

/**
 * How much longer a command takes than Node with nothing to do, the two in turns.
 *
 * @param command - its words
 * @param rounds - of which the median is taken
 */
export function startRatio(command: string, rounds: number): number {
  const words = [program, ...command.split(" ")];
  nodeTime(...words);
  return median(Array.from({ length: rounds }, () => nodeTime(...words) / nodeTime("-e", "0")));
}
