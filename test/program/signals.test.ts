import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { emptyFolder, tickwright } from "./cli.ts";
import { bytesOf, type Ending, LiveProcess } from "./live-process.ts";

/** A run without end in sight. */
const endless = "run school-laboratory --readings 90000000 --out o".split(" ");
/** What a run may leave behind when it is killed on the spot. */
const leftovers = /^\.(tickwright-lock|(readings\.csv|datapackage\.json)\.part-\d+)$/;

describe("a run told to stop", () => {
  // Before the first block of readings is on the disk, after it, and after many: 64 kB each.
  it.each([
    ["SIGINT", 0],
    ["SIGTERM", 1],
    ["SIGINT", 100_000],
    ["SIGTERM", 700_000],
  ] as const)(
    "by %s with %i bytes written keeps what is complete, and says so",
    async (signal, bytes) => {
      const cwd = emptyFolder();
      const run = new LiveProcess(endless, cwd);
      expect(await run.until(() => bytesOf(join(cwd, "o"), "readings.csv") >= bytes)).toBe(true);
      const { status, stdout, stderr } = await run.stopBy(signal);
      expect([status, stderr]).toEqual([130, ""]);
      expect(stdout).toContain("Interrupted: what was complete is kept.");
      expect(readdirSync(join(cwd, "o")).sort()).toEqual(["datapackage.json", "readings.csv"]);
      const described = JSON.parse(readFileSync(join(cwd, "o", "datapackage.json"), "utf8"));
      const provenance = described["tickwright:provenance"];
      expect(provenance.was_interrupted).toBe(true);
      const text = readFileSync(join(cwd, "o", "readings.csv"), "utf8");
      expect(text.endsWith("\r\n")).toBe(true);
      // The header, the rows, and what follows the last line end.
      expect(text.split("\r\n")).toHaveLength(provenance.counts.readings + 2);
    },
  );

  it("for the second time ends on the spot, even where it cannot look", async () => {
    const cwd = emptyFolder();
    // Stands still, deaf to everything, when the files are about to get their names.
    const hook =
      "import fs from 'node:fs';import {syncBuiltinESMExports} from 'node:module';" +
      "fs.renameSync=()=>{fs.writeSync(2,'standing still');" +
      "Atomics.wait(new Int32Array(new SharedArrayBuffer(4)),0,0)};syncBuiltinESMExports();";
    writeFileSync(join(cwd, "hook.mjs"), hook);
    const env = { NODE_OPTIONS: `--import ${join(cwd, "hook.mjs")}` };
    const run = new LiveProcess(endless, cwd, { env });
    expect(await run.until(() => bytesOf(join(cwd, "o"), "readings.csv") >= 1)).toBe(true);
    run.child.kill("SIGINT");
    expect(await run.until(() => run.stderr.includes("standing still"))).toBe(true);
    expect(await run.stopBy("SIGINT")).toMatchObject({ status: null, signal: "SIGINT" });
    const left = readdirSync(join(cwd, "o"));
    expect(left.filter((name) => !leftovers.test(name))).toEqual([]);
    // The next run takes the folder over and sweeps up.
    const next = "run school-laboratory --readings 3 --quiet --out o".split(" ");
    expect(tickwright(next, { cwd }).status).toBe(0);
    expect(readdirSync(join(cwd, "o")).sort()).toEqual(["datapackage.json", "readings.csv"]);
  });
});

describe("a command that computes in one go", () => {
  const log = Array.from({ length: 30_000 }, (_, i) => `${1 + 1e-4 * Math.sin(i * i)}\n`).join("");
  // Says when the program has begun to listen: before that Node itself is loading, and no program can answer.
  const hook =
    "import fs from 'node:fs';const on=process.on;process.on=function(name,act){const it=on.call(this,name,act);" +
    "if(name==='SIGTERM')fs.writeSync(2,'ready');return it};";

  it.each([
    ["judge", "SIGINT", 0],
    ["judge", "SIGTERM", 300],
    ["judge", "SIGINT", 900],
    ["fit", "SIGTERM", 0],
    ["fit", "SIGINT", 900],
  ] as const)(
    "%s, is ended by %s after %i ms, at once and with status 130",
    async (command, signal, wait) => {
      const cwd = emptyFolder();
      writeFileSync(join(cwd, "r.txt"), log);
      writeFileSync(join(cwd, "hook.mjs"), hook);
      const env = { NODE_OPTIONS: `--import ${join(cwd, "hook.mjs")}` };
      const live = new LiveProcess([command, "r.txt", "--nominal-period", "1"], cwd, { env });
      expect(await live.until(() => live.stderr.startsWith("ready"))).toBe(true);
      await new Promise((resolve) => setTimeout(resolve, wait));
      const begin = performance.now();
      const { status, stdout, stderr } = await live.stopBy(signal);
      // Where the machine is quick, it may have been done.
      if (status === 0) return;
      expect([status, stdout, stderr]).toEqual([130, "", "ready"]);
      expect(performance.now() - begin).toBeLessThan(2000);
      expect(readdirSync(cwd).sort()).toEqual(["hook.mjs", "r.txt"]);
    },
  );
});

describe("a sweep told to stop", () => {
  const sweep = "sweep school-laboratory --vary counter.dead_time_s=0,0.5 --seeds 12 --length 1500";
  const words = [...sweep.split(" "), "--workers", "2", "--out", "o"];
  const journal = ".sweep-journal";

  /** Runs in the journal: a line each, after the first. */
  const runsIn = (cwd: string): number => {
    try {
      return readFileSync(join(cwd, "o", journal), "latin1").split("\n").length - 2;
    } catch {
      return -1;
    }
  };

  it("at any moment and in any way loses and repeats no run", async () => {
    const whole = emptyFolder();
    expect(tickwright(words, { cwd: whole }).status).toBe(0);

    const cwd = emptyFolder();
    const ends: Ending[] = [];
    let before = 0;
    for (const [signal, more] of [
      ["SIGINT", 0],
      ["SIGTERM", 1],
      ["SIGKILL", 3],
      ["SIGINT", 5],
      ["SIGKILL", 2],
    ] as const) {
      const run = new LiveProcess([...words, "--resume"], cwd);
      await run.until(() => runsIn(cwd) >= before + more);
      const end = await run.stopBy(signal);
      ends.push(end);
      if (end.status === 0) break;
      expect([130, signal === "SIGKILL" ? null : 130]).toContain(end.status);
      // Killed in the middle of a line, only that line is lost; nothing that was there goes.
      expect(runsIn(cwd)).toBeGreaterThanOrEqual(before + more);
      before = runsIn(cwd);
      if (end.status === 130) {
        const kept = /Interrupted: (\d+) of 24 runs are kept in o; --resume goes on/.exec(
          end.stderr,
        );
        expect(Number(kept?.[1])).toBe(before);
        expect(readdirSync(join(cwd, "o"))).toEqual([journal]);
      }
    }
    expect(ends.length).toBeGreaterThan(2);
    const last = tickwright([...words, "--resume"], { cwd });
    expect(last.status).toBe(0);
    if (ends.at(-1)?.status !== 0)
      expect(last.stderr).toContain(`${before} of 24 runs were there.`);
    const [one, other] = [cwd, whole].map((f) => readFileSync(join(f, "o", "summary.csv")));
    expect(one).toEqual(other);
    expect(readdirSync(join(cwd, "o")).sort()).toEqual(["datapackage.json", "summary.csv"]);
  });
});
