import { spawnSync } from "node:child_process";
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { demo } from "../scenario/sample.ts";
import { emptyFolder, main, tickwright } from "./cli.ts";
import { bytesOf, LiveProcess } from "./live-process.ts";

const run = ["run", "school-laboratory", "--readings", "3", "--quiet"];

describe("the folder of a run", () => {
  it("stays where it is, whatever seed and file are called", () => {
    const cwd = emptyFolder();
    expect(tickwright([...run, "--seed", "../../x/..\u0007"], { cwd }).status).toBe(0);
    expect(readdirSync(cwd)).toEqual(["out"]);
    expect(readdirSync(join(cwd, "out"))).toHaveLength(1);
  });

  it("may be a link; a link as readings.csv is replaced, not followed", () => {
    const cwd = emptyFolder();
    mkdirSync(join(cwd, "real"));
    writeFileSync(join(cwd, "precious"), "keep");
    symlinkSync("real", join(cwd, "link"));
    symlinkSync("../precious", join(cwd, "real", "readings.csv"));
    expect(tickwright([...run, "--out", "link"], { cwd }).status).toBe(2);
    expect(tickwright([...run, "--out", "link", "--force"], { cwd }).status).toBe(0);
    expect(readFileSync(join(cwd, "precious"), "utf8")).toBe("keep");
    expect(readdirSync(join(cwd, "real")).sort()).toEqual(["datapackage.json", "readings.csv"]);
  });

  it.skipIf(!existsSync("/proc/self"))("is refused where no folder can be made", () => {
    const { status, stderr } = tickwright([...run, "--out", "/proc/no/place"]);
    expect(status).toBe(3);
    expect(stderr).toMatch(/^tickwright: \/proc\/no\/place: could not make this folder/);
  });

  it("is not left behind half made where a name below it cannot be", () => {
    const cwd = emptyFolder();
    // NAME_MAX of Linux is 255 bytes (limits.h).
    const { status } = tickwright([...run, "--out", `new/sub/${"x".repeat(256)}`], { cwd });
    expect(status).toBe(3);
    expect(readdirSync(cwd)).toEqual([]);
  });

  it("takes no device, pipe or folder for a file to be replaced", () => {
    const cwd = emptyFolder();
    spawnSync("mkfifo", [join(cwd, "pipe")]);
    mkdirSync(join(cwd, "o", "readings.csv"), { recursive: true });
    writeFileSync(
      join(cwd, "r.csv"),
      Array.from({ length: 40 }, (_, i) => 1 + 1e-4 * Math.sin(i * i)).join("\n"),
    );
    for (const words of [
      "lesson school-laboratory --out pipe --force",
      "fit r.csv --nominal-period 1 --gate 1 --back-to-back --out pipe --force",
      "run school-laboratory --readings 3 --quiet --out o --force",
    ]) {
      const { status, stdout, stderr } = tickwright(words.split(" "), { cwd });
      expect([status, stdout]).toEqual([2, ""]);
      expect(stderr).toMatch(/(pipe|readings\.csv) is there and is no file, so it is not replaced/);
    }
    expect(statSync(join(cwd, "pipe")).isFIFO()).toBe(true);
    expect(readdirSync(join(cwd, "o"))).toEqual(["readings.csv"]);
  });

  it("is not entered while another run is at work, and taken over from a dead one", () => {
    const cwd = emptyFolder();
    mkdirSync(join(cwd, "o"));
    const lock = join(cwd, "o", ".tickwright-lock");
    writeFileSync(lock, String(process.pid));
    const refused = tickwright([...run, "--out", "o"], { cwd });
    expect(refused.status).toBe(3);
    expect(refused.stderr).toMatch(/another run is writing to this folder/);
    expect(readdirSync(join(cwd, "o"))).toEqual([".tickwright-lock"]);
    // Above the largest process id of Linux, 2^22: no such process.
    writeFileSync(lock, "4194999");
    writeFileSync(join(cwd, "o", ".readings.csv.part-4194999"), "half");
    expect(tickwright([...run, "--out", "o"], { cwd }).status).toBe(0);
    expect(readdirSync(join(cwd, "o")).sort()).toEqual(["datapackage.json", "readings.csv"]);
  });

  it("loses nothing when the disk fills up", () => {
    const cwd = emptyFolder();
    const old = tickwright([...run, "--out", "o"], { cwd });
    expect(old.status).toBe(0);
    const before = readFileSync(join(cwd, "o", "readings.csv"));
    const hook =
      "import fs from 'node:fs';import {syncBuiltinESMExports} from 'node:module';const write=fs.writeSync;" +
      "fs.writeSync=(fd,data,...rest)=>{if(data.length>20)throw Object.assign(new Error('full'),{code:'ENOSPC'});" +
      "return write(fd,data,...rest)};syncBuiltinESMExports();";
    writeFileSync(join(cwd, "hook.mjs"), hook);
    const full = tickwright([...run, "--seed", "other", "--out", "o", "--force"], {
      cwd,
      env: { NODE_OPTIONS: `--import ${join(cwd, "hook.mjs")}` },
    });
    expect(full.status).toBe(3);
    expect(full.stderr).toMatch(/no space is left on the device/);
    expect(readFileSync(join(cwd, "o", "readings.csv"))).toEqual(before);
    expect(readdirSync(join(cwd, "o")).sort()).toEqual(["datapackage.json", "readings.csv"]);
  });

  it.each([
    ["school..yaml", "school.-"],
    ["...yaml", "_-"],
    ["a\n;b .yaml", "a_b_-"],
    [".hidden.yaml", "_hidden-"],
  ])("has a name of plain signs for the scenario file %j", (file, start) => {
    const cwd = emptyFolder();
    writeFileSync(join(cwd, file), demo("school-laboratory"));
    const { status, stderr } = tickwright(["run", file, "--readings", "3", "--quiet"], { cwd });
    expect([status, stderr]).toEqual([0, ""]);
    const [name, ...others] = readdirSync(join(cwd, "out"));
    expect([others, name?.startsWith(start)]).toEqual([[], true]);
    expect(name).toMatch(/^[A-Za-z0-9._-]+$/);
  });

  it("that vanishes under a run is missed in words, and does not come back", async () => {
    const cwd = emptyFolder();
    const words = "run school-laboratory --readings 90000000 --out o --quiet".split(" ");
    const run = new LiveProcess(words, cwd);
    expect(await run.until(() => bytesOf(join(cwd, "o"), "readings.csv") >= 1)).toBe(true);
    rmSync(join(cwd, "o"), { recursive: true });
    const { status, stdout, stderr } = await run.stopBy("SIGINT");
    expect([status, stdout]).toEqual([3, ""]);
    expect(stderr).toMatch(/^tickwright: o\/\S+: could not write: there is no such file or folder/);
    expect(readdirSync(cwd)).toEqual([]);
  });

  it("is written by one of two runs that are told to at once", async () => {
    const cwd = emptyFolder();
    const words = "run school-laboratory --length 3000 --out o --quiet".split(" ");
    const ends = await Promise.all([1, 2].map(() => new LiveProcess(words, cwd).ending));
    const [won, lost] = ends.sort((a, b) => a.status! - b.status!);
    expect(won!.status).toBe(0);
    // The other found it locked, or, having come later, filled.
    expect(lost!.stderr).toMatch(/another run is writing to this folder|exists already/);
    expect([2, 3]).toContain(lost!.status);
    expect(readdirSync(join(cwd, "o")).sort()).toEqual(["datapackage.json", "readings.csv"]);
    expect(tickwright(["replay", "o"], { cwd }).status).toBe(0);
  });

  it("keeps what it had, and nothing half of the new, where a file grows beyond the limit", () => {
    const cwd = emptyFolder();
    expect(tickwright([...run, "--out", "o"], { cwd }).status).toBe(0);
    const before = readFileSync(join(cwd, "o", "readings.csv"));
    // The first block of 64 kB fills up what may be written, 20 kB: a real refusal in the middle of a write.
    const line = `ulimit -f 20; exec ${process.execPath} ${main} run school-laboratory --length 9000 --quiet`;
    const limited = (out: string) =>
      spawnSync("bash", ["-c", `${line} --out ${out} --force`], { cwd, encoding: "utf8" });
    for (const out of ["o", "new"]) {
      const { status, stdout, stderr } = limited(out);
      expect([status, stdout]).toEqual([3, ""]);
      expect(stderr).toMatch(/readings\.csv: could not write: the file would be larger than/);
    }
    expect(readFileSync(join(cwd, "o", "readings.csv"))).toEqual(before);
    expect(readdirSync(cwd)).toEqual(["o"]);
    expect(readdirSync(join(cwd, "o")).sort()).toEqual(["datapackage.json", "readings.csv"]);
  });

  /** Permissions do not bind root, so that these tests run as nobody where they can. */
  const uid = process.getuid?.() === 0 ? { uid: 65_534 } : {};
  const nobody = (args: readonly string[], cwd: string) =>
    spawnSync(process.execPath, [main, ...args], { cwd, encoding: "utf8", ...uid });
  const canRead = nobody(["--version"], "/").status === 0;

  it.skipIf(!canRead)("is left alone where it may not be written to", () => {
    const cwd = emptyFolder();
    chmodSync(cwd, 0o755);
    for (const name of ["closed", "open"]) mkdirSync(join(cwd, name));
    chmodSync(join(cwd, "closed"), 0o555);
    chmodSync(join(cwd, "open"), 0o777);
    const said = (out: string) => nobody([...run, "--out", out], cwd);
    expect(said("open").status).toBe(0);
    const closed = said("closed");
    expect(closed).toMatchObject({ status: 3, stdout: "" });
    expect(closed.stderr).toMatch(
      /^tickwright: closed: could not write in this folder: permission denied; change the perm/,
    );
    expect(said("closed/below").stderr).toMatch(/closed\/below: could not make this folder: perm/);
    expect(readdirSync(join(cwd, "closed"))).toEqual([]);
    const sweep = nobody("sweep school-laboratory --seeds 2 --out closed".split(" "), cwd);
    expect(sweep).toMatchObject({ status: 3, stdout: "" });
  });

  it.skipIf(!canRead)("and its files are missed in words where they may not be read", () => {
    const cwd = emptyFolder();
    chmodSync(cwd, 0o755);
    for (const file of ["s.yaml", "r.csv"]) writeFileSync(join(cwd, file), "", { mode: 0o200 });
    for (const words of ["check s.yaml", "judge r.csv", "fit r.csv"]) {
      const { status, stderr } = nobody(words.split(" "), cwd);
      expect(status).toBe(3);
      expect(stderr).toMatch(/^tickwright: \S+: could not read: permission denied; change/);
    }
  });
});
