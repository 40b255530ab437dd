import { spawn } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { emptyFolder, main, tickwright } from "./cli.ts";

/** Answers in a real pseudo-terminal (script of util-linux), each when the program asks. */
async function typed(cwd: string, answers: readonly string[], args = "") {
  const command = `${process.execPath} ${main} new f.yaml ${args}`;
  const env = { PATH: process.env.PATH ?? "", NO_COLOR: "1", TERM: "xterm" };
  const child = spawn("script", ["-qefc", command, "/dev/null"], { cwd, env });
  const left = [...answers];
  let said = "";
  let answered = 0;
  child.stdout.setEncoding("utf8").on("data", (piece: string) => {
    said += piece;
    if (said.length === answered || !said.endsWith("] ")) return;
    answered = said.length;
    const answer = left.shift();
    if (answer !== undefined) child.stdin.write(answer === "\u0003" ? answer : `${answer}\n`);
  });
  const status = await new Promise((resolve) => child.on("close", resolve));
  return { said: said.replaceAll("\r\n", "\n"), status };
}

describe("new on a terminal", () => {
  it("asks, goes back, tells how to find out, asks again after an error, and writes what was said", async () => {
    const cwd = emptyFolder();
    const answers = [
      "fast",
      "5 s/month",
      "?",
      "2",
      "b",
      "1",
      "",
      "",
      "2",
      "960, 80, 7",
      "1.5, 20",
      "d",
      "oven",
      "3",
    ];
    const { said, status } = await typed(cwd, answers);
    expect(said).toContain("give an accuracy such as 10 s/month");
    expect(said).toContain("A sidereal second is 0.99726957 s");
    expect(said).toMatch(/Measure these first:\n\S+ +changes the plan/);
    expect(said).toContain("wrote f.yaml");
    expect(status).toBe(0);
    const text = readFileSync(join(cwd, "f.yaml"), "utf8");
    expect(parse(text)).toMatchObject({
      clock: { tick_hz: 1 },
      synthesizer: { output_hz: 2 },
      drive: { carrier_hz: 960, burst_s: 0.08, amplitude_vrms: 7 },
      receiver: { threshold_v: 1.5, time_constant_s: 0.02, steps_per_tick: 2 },
      counter: { gate_s: 9.5, timebase: { uncertainty: 1e-8 } },
    });
    // A prompt and what is typed behind it share a line.
    const lines = said.split("\n").filter((line) => !line.includes("]"));
    for (const line of lines) expect(line.length, line).toBeLessThanOrEqual(80);
  });

  it("skips aloud what does not arise, and takes answers by options as given", async () => {
    const { said } = await typed(
      emptyFolder(),
      ["", "", "", "", "", ""],
      "--drive itself --within 1s/day",
    );
    expect(said).toContain("skipped: no bursts");
    expect(said).not.toContain("What drives the clock");
    expect(said).toContain("[watch-crystal]");
    expect(said).toContain("wrote f.yaml");
  });

  it("interrupted says how to go on, and writes nothing", async () => {
    const cwd = emptyFolder();
    const { said, status } = await typed(cwd, ["1 s/day", "2", "\u0003"]);
    expect(said.replace(/\n */g, " ")).toContain(
      "tickwright new f.yaml --within '1 s/day' --tick '2'",
    );
    expect([status, existsSync(join(cwd, "f.yaml"))]).toEqual([130, false]);
  });
});

describe("new by options", () => {
  it("writes a scenario in which every key has a comment, and marks what is not known", () => {
    const cwd = emptyFolder();
    const { status, stdout } = tickwright(["new", "f.yaml", "--tone", "1213.7,60,8", "--json"], {
      cwd,
    });
    expect(status).toBe(0);
    const result = JSON.parse(stdout);
    expect(result.not_known).toContain("receiver.noise_v");
    expect(result.not_known).not.toContain("drive.carrier_hz");
    expect(result.measure_first).toHaveLength(3);
    const lines = readFileSync(join(cwd, "f.yaml"), "utf8").split("\n");
    lines.forEach((line, i) => {
      if (/^ *\w+: \S/.test(line)) expect(lines[i - 1], line).toMatch(/^ *# /);
    });
    expect(lines.filter((line) => line.includes("NOT KNOWN")).length).toBeGreaterThan(10);
    const checked = tickwright(["check", "f.yaml"], { cwd });
    expect(checked).toMatchObject({ status: 0, stderr: "" });
  });

  it.each([
    ["--tone", "1000,2000,8", "--tone 1000,2000,8: drive.burst_s is as long as"],
    ["--standard", "maser", "give one of watch-crystal"],
    ["--tick", "0", "give a number: s"],
  ])("refuses %s %s", (option, text, said) => {
    const cwd = emptyFolder();
    const { status, stderr } = tickwright(["new", "f.yaml", option, text], { cwd });
    expect(status).toBe(2);
    expect(stderr).toContain(said);
    expect(existsSync(join(cwd, "f.yaml"))).toBe(false);
  });

  it("replaces no file unless told to", () => {
    const cwd = emptyFolder();
    const args = ["new", "f.yaml", "--drive", "standard"];
    expect(tickwright(args, { cwd }).status).toBe(0);
    expect(tickwright(args, { cwd }).stderr).toContain("is there already");
    expect(tickwright([...args, "--force"], { cwd }).status).toBe(0);
  });
});
