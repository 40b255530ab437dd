import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { emptyFolder, type Result } from "../cli.ts";

/** The built program's folder. */
export const dist = join(import.meta.dirname, "../../../dist");

/** A command line and the folder it is given in. */
export interface Call {
  readonly cwd: string;
  readonly args: readonly string[];
  /** Whether every write fails for want of space. */
  readonly isDiskFull?: boolean;
}

/** How often a piece of code ran: offsets in the file, the innermost range counts. */
interface Range {
  readonly startOffset: number;
  readonly endOffset: number;
  readonly count: number;
}

/** Which places of the built program were come by. */
export class Coverage {
  private readonly ranges = new Map<string, Range[][]>();

  /** Adds what V8 wrote into a folder (its precise coverage of blocks, as DevTools shows it). */
  add(folder: string): void {
    for (const file of readdirSync(folder)) {
      const { result } = JSON.parse(readFileSync(join(folder, file), "utf8")) as {
        result: { url: string; functions: { ranges: Range[] }[] }[];
      };
      for (const { url, functions } of result) {
        if (!url.startsWith("file:")) continue;
        const path = fileURLToPath(url);
        const all = functions.flatMap(({ ranges }) => ranges);
        this.ranges.set(path, [...(this.ranges.get(path) ?? []), all]);
      }
    }
  }

  /** Whether the code at an offset of a file ran. */
  ran(path: string, offset: number): boolean {
    return (this.ranges.get(path) ?? []).some((ranges) => {
      const around = ranges.filter((r) => r.startOffset <= offset && offset < r.endOffset);
      const size = (r: Range) => r.endOffset - r.startOffset;
      const innermost = around.sort((a, b) => size(a) - size(b))[0];
      return innermost !== undefined && innermost.count > 0;
    });
  }
}

/** Runs command lines one after the other in one process, and notes what they came by. */
export function runInOneProcess(calls: readonly Call[], coverage: Coverage): Result[] {
  const folder = emptyFolder();
  const [asked, answered, traces] = ["calls", "results", "coverage"].map((n) => join(folder, n));
  writeFileSync(asked!, JSON.stringify(calls));
  const driver = join(import.meta.dirname, "one-process-driver.mjs");
  const { status, stderr } = spawnSync(process.execPath, [driver, dist, asked!, answered!], {
    encoding: "utf8",
    env: {
      PATH: process.env.PATH ?? "",
      NO_COLOR: "1",
      SOURCE_DATE_EPOCH: "0",
      NODE_V8_COVERAGE: traces!,
    },
  });
  if (status !== 0) throw new Error(`the driver ended with ${status}: ${stderr}`);
  coverage.add(traces!);
  return JSON.parse(readFileSync(answered!, "utf8"));
}
