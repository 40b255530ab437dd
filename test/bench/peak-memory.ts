import { spawnSync } from "node:child_process";
import { RunRecord } from "../../src/chain/index.ts";
import { demo, runChain } from "./chains.ts";

const flag = "--memory";

/** What the process started by `peakMemory` does: one run with all ticks and readings taken. */
export function runForMemory(): boolean {
  const at = process.argv.indexOf(flag);
  if (at < 0) return false;
  const scenario = demo("observatory");
  const record = RunRecord.of(scenario);
  let sum = 0;
  runChain(scenario, Number(process.argv[at + 1]), "ticks", {
    tick(_, error) {
      sum += error;
    },
    reading: (reading) => record.add(reading),
  });
  if (!Number.isFinite(sum)) throw new Error("no ticks");
  console.log(process.resourceUsage().maxRSS / 1024);
  return true;
}

/** Greatest resident memory of a process that runs so many ticks; MB. */
export function peakMemory(script: string, ticks: number): number {
  const { stdout, stderr } = spawnSync(process.execPath, [script, flag, String(ticks)], {
    encoding: "utf8",
  });
  if (stdout === "") throw new Error(stderr);
  return Number(stdout);
}
