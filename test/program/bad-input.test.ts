import { spawnSync } from "node:child_process";
import { chmodSync, mkdirSync, readdirSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { emptyFolder, main, tickwright } from "./cli.ts";

const good =
  "length_s: 100\nclock: {tick_hz: 1}\nreference: {nominal_hz: 10e6}\ncounter: {gate_s: 5}\n";

const school = ["run", "school-laboratory", "--length", "30", "--out", "o", "--quiet"];

describe("bad input", () => {
  it.each([
    ["an unknown key", `${good}counters: {gate_s: 5}\n`, /bad.yaml:5:1: counters: .*counter/],
    ["a wrong type", good.replace("100", "long"), /bad.yaml:1:11: length_s: /],
    ["an impossible value", good.replace("100", "-1"), /bad.yaml:1:11: length_s: /],
    ["no YAML", "a: [1, 2\nb: }", /bad.yaml:\d+:\d+: /],
    ["an empty file", "", /bad.yaml:1:1: /],
    ["a binary file", Buffer.from([0, 1, 2, 255, 254, 0]), /bad.yaml/],
    ["a missing key", good.replace(/clock.*\n/, ""), /bad.yaml:1:1: clock: /],
  ])("says where %s is, and ends with status 2", (_, text, message) => {
    const cwd = emptyFolder();
    writeFileSync(join(cwd, "bad.yaml"), text);
    const { status, stdout, stderr } = tickwright(["run", "bad.yaml"], { cwd });
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(message);
    expect(stderr).not.toMatch(/\n\s+at /);
    expect(readdirSync(cwd)).toEqual(["bad.yaml"]);
  });

  it("tells an override from the file", () => {
    const { status, stderr } = tickwright(["check", "observatory", "--set", "counter.gate_s=0"]);
    expect(status).toBe(2);
    expect(stderr).toMatch(/^tickwright: --set counter.gate_s=0: counter.gate_s: /);
  });

  it("gives errors as JSON with --json", () => {
    const { status, stderr } = tickwright([
      "check",
      "observatory",
      "--set",
      "drive.burst_s=1",
      "--json",
    ]);
    expect(status).toBe(2);
    const { error } = JSON.parse(stderr);
    expect(error.status).toBe(2);
    expect(error.details[0].path).toBe("drive.burst_s");
  });

  it("names a file that is not there, and a demo that is near", () => {
    expect(tickwright(["run", "./none.yaml"])).toMatchObject({ status: 3 });
    expect(tickwright(["run", "./none.yaml"]).stderr).toMatch(
      /none.yaml: could not read: there is no such file/,
    );
    const { status, stderr } = tickwright(["run", "observatry"]);
    expect(status).toBe(2);
    expect(stderr).toMatch(/did you mean observatory\?/);
  });

  it("leads from a command that is none to the help of the program", () => {
    const { status, stderr } = tickwright(["pln", "observatory"]);
    expect(status).toBe(2);
    expect(stderr).toMatch(/Did you mean plan\?\)\n\(run "tickwright --help" for the commands\)/);
  });

  it("refuses an option that is none, and suggests one", () => {
    const { status, stderr } = tickwright(["run", "observatory", "--sed", "4"]);
    expect(status).toBe(2);
    expect(stderr).toMatch(/Did you mean .*--seed/);
  });

  it.each([
    ["--readings", "0"],
    ["--readings", "1e3"],
    ["--length", "-5"],
    ["--length", "soon"],
  ])("refuses %s %s", (option, value) => {
    expect(tickwright(["run", "observatory", option, value]).status).toBe(2);
  });

  it("names a folder that cannot be written to", () => {
    const cwd = emptyFolder();
    writeFileSync(join(cwd, "file"), "");
    const { status, stderr } = tickwright(["run", "school-laboratory", "--out", "file/x"], { cwd });
    expect(status).toBe(3);
    expect(stderr).toMatch(
      /file\/x: could not make this folder: a part of the path is not a folder/,
    );
    if (process.getuid?.() !== 0) {
      mkdirSync(join(cwd, "closed"));
      chmodSync(join(cwd, "closed"), 0o500);
      expect(tickwright(["run", "school-laboratory", "--out", "closed"], { cwd }).status).toBe(3);
    }
  });

  it("leaves nothing behind when the disk is full", () => {
    // /dev/full refuses every write with ENOSPC.
    const script = `exec ${process.execPath} ${main} run school-laboratory --out - >/dev/full`;
    const { status, stderr } = spawnSync("sh", ["-c", script], { encoding: "utf8" });
    expect(status).toBe(3);
    expect(stderr).toMatch(/standard output: could not write: no space is left/);
  });

  it.each([
    "check observatory",
    "judge - --nominal-period 1 --json",
    "fit o/readings.csv",
    "lesson observatory --out -",
    "run school-laboratory --length 10 --out o --force",
    "replay o",
    "completion bash",
    "plan --help",
    "--version",
    "--version --json",
  ])("says in one line that the disk is full where %s was sent to it", (words) => {
    const cwd = emptyFolder();
    expect(tickwright(school, { cwd }).status).toBe(0);
    // /dev/full refuses every write with ENOSPC.
    const script = `exec ${process.execPath} ${main} ${words} <o/readings.csv >/dev/full`;
    const { status, stderr } = spawnSync("sh", ["-c", script], { cwd, encoding: "utf8" });
    expect(status).toBe(3);
    expect(stderr).toMatch(/^.*standard output: could not write: no space is left.*\n$/);
  });

  it("does not pass a text cut short for the whole", () => {
    const cwd = emptyFolder();
    // Of a page of 140 kB the file takes 20: the system writes that much, and refuses only what follows.
    const script = `ulimit -f 20; trap "" XFSZ; exec ${process.execPath} ${main} lesson observatory --out - >page.html`;
    const { status, stderr } = spawnSync("bash", ["-c", script], { cwd, encoding: "utf8" });
    expect(statSync(join(cwd, "page.html")).size).toBe(20 * 1024);
    expect(status).toBe(3);
    expect(stderr).toMatch(
      /^tickwright: standard output: could not write: the file would be larger/,
    );
  });

  it("keeps its status where stderr cannot take the message", () => {
    const script = `exec ${process.execPath} ${main} check no-such-demo 2>/dev/full`;
    expect(spawnSync("sh", ["-c", script]).status).toBe(2);
  });

  it("ends quietly in one line when the reader of a pipe goes", () => {
    const script = `${process.execPath} ${main} run school-laboratory --out - --readings 100000 | head -1`;
    const { stdout, stderr } = spawnSync("bash", ["-c", `set -o pipefail; ${script}; echo $?`], {
      encoding: "utf8",
    });
    expect(stdout).toMatch(/^reading,start_s.*\r\n3\n$/);
    expect(stderr).toBe(
      "tickwright: standard output: could not write: the reader of the pipe has gone\n",
    );
  });
});
