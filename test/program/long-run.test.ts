import { spawn, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { emptyFolder, main } from "./cli.ts";

const env = { PATH: process.env.PATH ?? "", NO_COLOR: "1", SOURCE_DATE_EPOCH: "0" };

const ticksOf = (seconds: number) => [
  "run",
  "observatory",
  "--ticks",
  "--recording",
  "ticks",
  "--length",
  String(seconds),
];

const sha256 = (text: string) => createHash("sha256").update(text).digest("hex");

/** Greatest resident memory of a process so far, as Linux tells it; MB. */
function peakMemory(pid: number): number {
  const status = readFileSync(`/proc/${pid}/status`, "utf8");
  return Number(/VmHWM:\s+(\d+) kB/.exec(status)?.[1]) / 1024;
}

/** Bytes of ticks written so far, under their temporary name. */
function bytesSoFar(folder: string): number {
  if (!existsSync(folder)) return 0;
  const file = readdirSync(folder).find((name) => name.includes("ticks.csv"));
  return file === undefined ? 0 : statSync(join(folder, file)).size;
}

/** Starts a run of three years and interrupts it once so many bytes of ticks are on the disk. */
async function interrupted(cwd: string, bytes: number) {
  const child = spawn(process.execPath, [main, ...ticksOf(1e8), "--out", "long"], { cwd, env });
  let stdout = "";
  child.stdout.setEncoding("utf8").on("data", (text) => {
    stdout += text;
  });
  const ended = new Promise<number | null>((resolve) => child.on("close", resolve));
  const folder = join(cwd, "long");
  while (child.exitCode === null && bytesSoFar(folder) < bytes) {
    await new Promise((resume) => setTimeout(resume, 20));
  }
  const memory = process.platform === "linux" ? peakMemory(child.pid!) : 0;
  child.kill("SIGINT");
  return { status: await ended, stdout, folder, memory };
}

describe("a very long run", () => {
  it("streams in constant memory, and keeps and says what was complete when interrupted", async () => {
    // 1.2e8 bytes are three million ticks: kept in memory they would take it beyond the limit.
    const { status, stdout, folder, memory } = await interrupted(emptyFolder(), 1.2e8);
    expect(status).toBe(130);
    expect(stdout).toMatch(/interrupted/i);
    expect(memory).toBeLessThan(200);

    expect(readdirSync(folder).sort()).toEqual(["datapackage.json", "readings.csv", "ticks.csv"]);
    const descriptor = JSON.parse(readFileSync(join(folder, "datapackage.json"), "utf8"));
    const provenance = descriptor["tickwright:provenance"];
    expect(provenance.was_interrupted).toBe(true);
    for (const { path, bytes, hash } of descriptor.resources) {
      const text = readFileSync(join(folder, path), "utf8");
      expect([bytes, hash]).toEqual([text.length, `sha256:${sha256(text)}`]);
      const rows = text.split("\r\n");
      // The last row is whole, and nothing follows its end of line.
      expect(rows.pop()).toBe("");
      const cells = rows.map((row) => row.split(","));
      expect(cells[cells.length - 1]!.length).toBe(cells[0]!.length);
      const counted = provenance.counts[path.replace(".csv", "")];
      expect(cells.length - 1).toBe(counted);
      if (path === "ticks.csv") {
        expect(cells.slice(1).every(([tick], i) => Number(tick) === i + 1)).toBe(true);
      }
    }
  });

  const terminal = process.platform === "linux" && existsSync("/usr/bin/script");

  it.runIf(terminal)("has the same digests whether its progress is shown or not", () => {
    const cwd = emptyFolder();
    const args = [main, ...ticksOf(150000)];
    const quiet = spawnSync(process.execPath, [...args, "--out", "quiet"], {
      cwd,
      env,
      encoding: "utf8",
    });
    // `script` gives the program a terminal.
    const line = [process.execPath, ...args, "--out", "shown"].join(" ");
    const shown = spawnSync("/usr/bin/script", ["-qec", line, "/dev/null"], {
      cwd,
      env: { ...env, TERM: "xterm" },
      encoding: "utf8",
    });
    expect([quiet.status, shown.status]).toEqual([0, 0]);
    expect(quiet.stdout + quiet.stderr).not.toMatch(/simulating/);
    expect(shown.stdout).toMatch(/simulating \d+ %/);
    for (const file of ["readings.csv", "ticks.csv"]) {
      const [a, b] = ["quiet", "shown"].map((folder) =>
        sha256(readFileSync(join(cwd, folder, file), "utf8")),
      );
      expect(a).toBe(b);
    }
  });
});
