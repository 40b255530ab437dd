import { spawnSync } from "node:child_process";

/** Debian's interpreter, the one whose numpy comes as a package of the distribution. */
const python = "/usr/bin/python3";

/** One run of the vectorised script. */
export interface NumpyRun {
  /** CPU time a tick; ns. */
  readonly ns: number;
  readonly meanDelay: number;
  readonly rmsDelay: number;
  readonly peakMb: number;
  readonly version: string;
}

/** Whether the interpreter and its numpy are there. */
export function hasNumpy(): boolean {
  return spawnSync(python, ["-c", "import numpy"]).status === 0;
}

/** Runs `chain.py` once, after one run to warm up. */
export function runNumpy(detector: "frozen" | "stepwise", ticks: number): NumpyRun {
  const args = ["test/bench/chain.py", detector, String(ticks), "2"];
  const { stdout, stderr, status } = spawnSync(python, args, { encoding: "utf8" });
  if (status !== 0) throw new Error(`chain.py: ${stderr}`);
  const result = JSON.parse(stdout);
  return {
    ns: (1e9 * result.cpu_s[1]) / result.ticks,
    meanDelay: result.mean_delay_s,
    rmsDelay: result.rms_delay_s,
    peakMb: result.peak_mb,
    version: result.numpy,
  };
}
