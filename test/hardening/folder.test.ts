import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { emptyFolder, tickwright } from "../cli/cli.ts";

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
});
