import { spawn } from "node:child_process";
import { appendFileSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { emptyFolder, main, tickwright } from "./cli.ts";
import { LiveProcess } from "./live-process.ts";
import { hasTerminals, onTerminal, screenOf, serialLine } from "./pty.ts";
import { killedWatches } from "./watch-killed.ts";

/** Readings of ten-second gates of a one-second tick with timing noise of half a millisecond at each edge: invented. */
function invented(count: number): string[] {
  let state = 7;
  const noise = () => {
    let sum = -6;
    for (let i = 0; i < 12; i++) {
      state = (state * 16807) % 2147483647;
      sum += state / 2147483647;
    }
    return 5e-4 * sum;
  };
  let before = noise();
  return Array.from({ length: count }, () => {
    const edge = noise();
    const period = 1 + (edge - before) / 10;
    before = edge;
    return period.toFixed(10);
  });
}
const how = ["--nominal-period", "1", "--gate", "9.5", "--back-to-back"];
const lines = invented(150);
const text = `${lines.join("\n")}\n`;
const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
const jsonLines = (stdout: string) =>
  stdout
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line));

describe("watch", () => {
  it("says at the end what judge says of the whole, and of the log that it kept", () => {
    const cwd = emptyFolder();
    const watched = tickwright(["watch", "-", ...how, "--json", "--log", "bench.log"], {
      cwd,
      input: text,
    });
    expect(watched.status).toBe(0);
    const found = jsonLines(watched.stdout);
    const { ended, goal, ...last } = found.pop();
    expect([ended, goal]).toEqual(["input_ended", null]);
    const { files: _, ...judged } = JSON.parse(
      tickwright(["judge", "bench.log", ...how, "--json"], { cwd }).stdout,
    );
    expect(last).toEqual(judged);
    expect(found.map(({ value }) => value)).toEqual(lines.map(Number));
    // Arrival time (ISO 8601, UTC, ms), a tab, the raw line.
    const kept = readFileSync(join(cwd, "bench.log"), "utf8").trimEnd().split("\n");
    expect(
      kept.map((line) => line.replace(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z\t/, "")),
    ).toEqual(lines);
  });

  it("ends by itself at the same reading, however the input is cut up", async () => {
    const cwd = emptyFolder();
    const args = [
      "watch",
      "-",
      ...how,
      "--json",
      "--within",
      "60 ms/day",
      "--of",
      "run",
      "--until-known",
    ];
    const whole = jsonLines(tickwright(args, { cwd, input: text }).stdout);
    const last = whole.at(-1);
    expect(last.ended).toBe("goal_met");
    const count = last.goal.met_at_reading;
    expect(count).toBeGreaterThanOrEqual(30);
    expect(whole.length).toBe(count + 1);
    const [low, high] = last.headline.over_run.interval_95;
    expect((high - low) / 2 + last.headline.systematic_bound).toBeLessThanOrEqual(60e-3 / 86400);

    const child = spawn(process.execPath, [main, ...args], { cwd });
    let said = "";
    child.stdout.on("data", (data) => {
      said += data;
    });
    const ended = new Promise((resolve) => child.on("close", resolve));
    child.stdin.on("error", () => {});
    for (let at = 0; at < text.length && child.exitCode === null; at += 97) {
      child.stdin.write(text.slice(at, at + 97));
      await wait(3);
    }
    child.stdin.end();
    expect(await ended).toBe(0);
    expect(jsonLines(said).at(-1)).toEqual(last);
  });

  it("ends with status 1 where the input ends before the goal is met", () => {
    const args = ["watch", "-", ...how, "--within", "1 us/day", "--until-known"];
    const { status, stdout, stderr } = tickwright(args, { input: text });
    expect(status).toBe(1);
    expect(stderr).toContain("not met");
    expect(stdout.trimEnd().split("\r\n")).toHaveLength(lines.length + 1);
  });

  it("goes on in the log where it ended: the pause is a gap, and a line cut short by a kill is gone", () => {
    const cwd = emptyFolder();
    const start = Date.parse("2031-05-14T08:00:00Z");
    const stamped = lines
      .slice(0, 60)
      .map((line, i) => `${new Date(start + i * 1e4).toISOString()}\t${line}\n`);
    const log = join(cwd, "bench.log");
    writeFileSync(log, `${stamped.join("")}2031-05-14T08:10:00.000Z\t0.99`);
    const goal = ["--within", "1 s/day"];
    const args = ["watch", "-", ...how, "--json", "--log", "bench.log", ...goal];
    const { status, stdout, stderr } = tickwright(args, {
      cwd,
      input: `${lines.slice(60, 63).join("\n")}\n`,
    });
    expect(status).toBe(0);
    expect(stderr).toContain("the goal is changed after the first reading");
    const found = jsonLines(stdout);
    expect(found).toHaveLength(4);
    expect(found.slice(0, 3).map(({ value }) => value)).toEqual(lines.slice(60, 63).map(Number));
    expect(found.at(-1)).toMatchObject({ readings: 63 });
    expect(readFileSync(log, "utf8")).not.toContain("\t0.99\n");
  });

  it("follows a file that grows, is gone, comes again, and is cut", async () => {
    const cwd = emptyFolder();
    const file = join(cwd, "grows.txt");
    const part = (from: number, to: number) => `${lines.slice(from, to).join("\n")}\n`;
    writeFileSync(file, part(0, 20));
    const run = new LiveProcess(["watch", "grows.txt", ...how, "--json"], cwd);
    const rows = () =>
      run.stdout
        .trim()
        .split("\n")
        .filter((line) => line !== "").length;
    expect(await run.until(() => rows() === 20)).toBe(true);
    appendFileSync(file, part(20, 30).slice(0, 50));
    await wait(250);
    appendFileSync(file, part(20, 30).slice(50));
    expect(await run.until(() => rows() === 30)).toBe(true);
    // Written anew with what was there and more: it goes on.
    writeFileSync(`${file}.new`, part(0, 40));
    renameSync(`${file}.new`, file);
    expect(await run.until(() => rows() === 40)).toBe(true);
    rmSync(file);
    expect(await run.until(() => run.stderr.includes("is gone"))).toBe(true);
    // Another file: another run.
    writeFileSync(file, part(40, 50));
    expect(await run.until(() => rows() === 50)).toBe(true);
    writeFileSync(file, part(60, 65));
    expect(await run.until(() => rows() === 55)).toBe(true);
    const { status, stdout, stderr } = await run.stopBy("SIGINT");
    expect(status).toBe(130);
    const last = jsonLines(stdout).at(-1);
    expect(last).toMatchObject({ ended: "stopped", readings: 55 });
    expect(last.notes.filter(({ code }: { code: string }) => code === "joined_run")).toHaveLength(
      2,
    );
    expect(stderr.match(/cut or replaced/g)).toHaveLength(2);
  });

  it("loses no line that was shown when it is killed at any moment", async () => {
    expect(await killedWatches(6, 1)).toBe(6);
  });
});

describe.skipIf(!hasTerminals && !process.env.CI)("watch on terminals", () => {
  it("reads a serial line in fragments, draws its status in place within 80 columns, and loses nothing by Ctrl-C", async () => {
    const cwd = emptyFolder();
    const line = await serialLine(cwd);
    const args = [
      "watch",
      "line",
      ...how,
      "--within",
      "20 ms/day",
      "--timebase",
      "1e-8",
      "--log",
      "bench.log",
    ];
    const run = onTerminal(args, cwd);
    let shown = "";
    run.stdout!.setEncoding("utf8").on("data", (data: string) => {
      shown += data;
    });
    const ended = new Promise((resolve) => run.on("close", resolve));
    // A hundred lines a second, each in two pieces and with CR LF, as counters send them.
    for (const [i, one] of lines.slice(0, 120).entries()) {
      const cut = 1 + (i % 9);
      line.stdin!.write(one.slice(0, cut));
      await wait(4);
      line.stdin!.write(`${one.slice(cut)}\r\n`);
      await wait(4);
    }
    for (let i = 0; i < 600 && !shown.includes("Reading 119:"); i++) await wait(50);
    await wait(600);
    const screen = screenOf(shown);
    const status = screen.slice(screen.findLastIndex((l) => l.startsWith("-----")));
    for (const l of screen) expect(l.length, l).toBeLessThanOrEqual(80);
    expect(screen.filter((l) => l.startsWith("KNOWN TO"))).toHaveLength(1);
    expect(status.join("\n")).toMatch(
      /goal ±20 ms\/day[\s\S]*KNOWN TO +±[\s\S]*time base, does not[\s\S]*READY[\s\S]*Over run[\s\S]*Steady[\s\S]*Mean .*s\/√K[\s\S]*Last 48 +[▁-█]{48}\n[\s\S]*Ctrl-C/,
    );
    run.stdin!.write("\u0003");
    expect(await ended).toBe(130);
    line.kill();
    const end = screenOf(shown).join("\n");
    expect(end).toContain("Stopped by hand after 120 readings");
    expect(end).toContain("Rate over this run of");
    const kept = readFileSync(join(cwd, "bench.log"), "utf8").trimEnd().split("\n");
    expect(kept[0]).toMatch(/^# \S+Z goal 2\.31\S*e-7 steady$/);
    expect(kept.slice(1).map((l) => l.split("\t")[1])).toEqual(lines.slice(0, 120));
  });
});
