import { type ChildProcess, spawn } from "node:child_process";
import { existsSync, readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { main } from "./cli.ts";

/** How a program ended. */
export interface Ending {
  readonly status: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** A program at work, which the test can watch and disturb. */
export class LiveProcess {
  readonly child: ChildProcess;
  readonly ending: Promise<Ending>;
  private hasEnded = false;
  private readonly said = { stdout: "", stderr: "" };

  constructor(
    args: readonly string[],
    cwd: string,
    options: { env?: Record<string, string>; uid?: number } = {},
  ) {
    const { env, ...rest } = options;
    this.child = spawn(process.execPath, [main, ...args], {
      cwd,
      stdio: ["ignore", "pipe", "pipe"],
      env: { PATH: process.env.PATH ?? "", NO_COLOR: "1", SOURCE_DATE_EPOCH: "0", ...env },
      ...rest,
    });
    for (const name of ["stdout", "stderr"] as const) {
      this.child[name]?.setEncoding("utf8").on("data", (text: string) => {
        this.said[name] += text;
      });
    }
    this.ending = new Promise((resolve, reject) => {
      this.child.on("error", reject);
      this.child.on("close", (status, signal) => {
        this.hasEnded = true;
        resolve({ status, signal, ...this.said });
      });
    });
  }

  /** What it has said on stdout so far. */
  get stdout(): string {
    return this.said.stdout;
  }

  /** What it has said on stderr so far. */
  get stderr(): string {
    return this.said.stderr;
  }

  /** Waits until something holds, or the program has ended; whether it holds. */
  async until(holds: () => boolean): Promise<boolean> {
    while (!holds()) {
      if (this.hasEnded) return holds();
      await new Promise((resolve) => setTimeout(resolve, 5));
    }
    return true;
  }

  /** Sends a signal and waits for the end. */
  async stopBy(signal: NodeJS.Signals): Promise<Ending> {
    this.child.kill(signal);
    return this.ending;
  }
}

/** Bytes of a table that is being written, or has been; −1 where there is none. */
export function bytesOf(folder: string, name: string): number {
  if (!existsSync(folder)) return -1;
  const file = readdirSync(folder).find((n) => n === name || n.startsWith(`.${name}.part-`));
  const size = file && statSync(join(folder, file), { throwIfNoEntry: false })?.size;
  return typeof size === "number" ? size : -1;
}
