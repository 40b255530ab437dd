import { spawnSync } from "node:child_process";
import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** The built program, as `npm run build` leaves it. */
export const main = join(import.meta.dirname, "../../dist/cli/main.js");

/** What a call of the program came to. */
export interface Result {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs the built program with a cleaned environment; `input` goes to its standard input. */
export function tickwright(
  args: readonly string[],
  options: { cwd?: string; input?: string | Buffer; env?: Record<string, string> } = {},
): Result {
  const { status, stdout, stderr } = spawnSync(process.execPath, [main, ...args], {
    encoding: "utf8",
    env: { PATH: process.env.PATH ?? "", NO_COLOR: "1", SOURCE_DATE_EPOCH: "0", ...options.env },
    ...(options.cwd === undefined ? {} : { cwd: options.cwd }),
    ...(options.input === undefined ? {} : { input: options.input }),
  });
  return { status, stdout, stderr };
}

/** A new empty folder. */
export function emptyFolder(): string {
  return mkdtempSync(join(tmpdir(), "tickwright-test-"));
}
