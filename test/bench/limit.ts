import { spawnSync } from "node:child_process";

const program = "out/limit";

/** Compiles the plain program in C of the observatory chain; false where there is no compiler. */
export function compileLimit(): boolean {
  const args = ["-O3", "-march=native", "test/bench/limit.c", "-lm", "-o", program];
  return spawnSync("cc", args).status === 0;
}

/**
 * Runs it.
 *
 * @returns CPU time a tick; ns
 */
export function runLimit(ticks: number): number {
  const { stdout, stderr, status } = spawnSync(program, [String(ticks)], { encoding: "utf8" });
  if (status !== 0) throw new Error(`limit.c: ${stderr}`);
  return JSON.parse(stdout).ns_per_tick;
}
