import { spawn } from "node:child_process";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { emptyFolder, main } from "../cli/cli.ts";

/** Starts a run without end in sight, sends it a signal after a while, and tells its exit status. */
function interrupted(cwd: string, signal: NodeJS.Signals, after: number): Promise<number | null> {
  const args = [
    main,
    "run",
    "school-laboratory",
    "--readings",
    "90000000",
    "--out",
    "o",
    "--quiet",
  ];
  const child = spawn(process.execPath, args, { cwd, stdio: "ignore" });
  return new Promise((resolve) => {
    child.on("exit", resolve);
    const waiting = setInterval(() => {
      // Before the folder is there, the program may not have come to catch signals yet.
      if (!existsSync(join(cwd, "o"))) return;
      clearInterval(waiting);
      setTimeout(() => child.kill(signal), after);
    }, 20);
  });
}

describe("a run told to stop", () => {
  it.each([
    ["SIGINT", 0],
    ["SIGTERM", 130],
    ["SIGINT", 470],
  ] as const)("by %s after %i ms keeps what is complete, and says so", async (signal, after) => {
    const cwd = emptyFolder();
    expect(await interrupted(cwd, signal, after)).toBe(130);
    expect(readdirSync(join(cwd, "o")).sort()).toEqual(["datapackage.json", "readings.csv"]);
    const described = JSON.parse(readFileSync(join(cwd, "o", "datapackage.json"), "utf8"));
    const provenance = described["tickwright:provenance"];
    expect(provenance.was_interrupted).toBe(true);
    const text = readFileSync(join(cwd, "o", "readings.csv"), "utf8");
    expect(text.endsWith("\r\n")).toBe(true);
    // The header, the rows, and what follows the last line end.
    expect(text.split("\r\n")).toHaveLength(provenance.counts.readings + 2);
  });
});
