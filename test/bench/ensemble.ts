import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** What a whole command took, its start included; s. */
export interface CommandTime {
  readonly wall: number;
  /** User and system time of all its threads. */
  readonly cpu: number;
}

/** The built program. */
export const program = join("dist", "cli", "main.js");

/** Whether the program is built, so that its commands can be timed. */
export const isBuilt = (): boolean => existsSync(program);

/** Whether a command can be kept on one core, helper threads of the engine and all. */
export const canPin = (): boolean => spawnSync("taskset", ["-V"]).status === 0;

/** The process says at its end what it took; the parent cannot know. */
const teller = `data:text/javascript,${encodeURIComponent(
  'import { writeSync } from "node:fs"; process.on("exit", () => { const { user, system } = process.cpuUsage(); writeSync(3, String((user + system) / 1e6)); });',
)}`;

/**
 * Time of a sweep of the observatory: runs of a million seconds at a gate of 100 s.
 *
 * @param runs - how many
 * @param workers - threads
 * @param isPinned - whether all threads share one core
 */
export function sweepTime(runs: number, workers: number, isPinned = false): CommandTime {
  const out = mkdtempSync(join(tmpdir(), "tickwright-bench-"));
  const command = [
    ...(isPinned ? ["taskset", "-c", "0"] : []),
    ...[process.execPath, "--import", teller, program, "sweep", "observatory"],
    ...["--set", "counter.gate_s=100", "--length", "1e6", "--seeds", `${runs}`],
    ...["--workers", `${workers}`, "--out", out, "--force", "--quiet"],
  ];
  const begin = performance.now();
  const { status, stderr, output } = spawnSync(command[0]!, command.slice(1), {
    stdio: ["ignore", "ignore", "pipe", "pipe"],
    encoding: "utf8",
  });
  const wall = (performance.now() - begin) / 1e3;
  rmSync(out, { recursive: true });
  if (status !== 0) throw new Error(`sweep ended with ${status}: ${stderr}`);
  return { wall, cpu: Number(output[3]) };
}
