import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { emptyFolder, main, tickwright } from "./cli.ts";

const sweep = [
  ...["sweep", "school-laboratory", "--vary", "counter.dead_time_s=0,0.5"],
  ...["--seeds", "8", "--length", "100"],
];

describe("tickwright merge", () => {
  const cwd = emptyFolder();
  const shard = (part: string, folder: string, more: readonly string[] = []) =>
    tickwright([...sweep, ...more, "--shard", part, "--out", folder], { cwd });
  const merge = (...args: string[]) => tickwright(["merge", ...args], { cwd });
  const bytes = (folder: string) => readFileSync(join(cwd, folder, "summary.csv"));

  beforeAll(() => {
    tickwright([...sweep, "--out", "whole"], { cwd });
    for (const i of [1, 2, 3]) shard(`${i}/3`, `part-${i}`);
  });

  it("makes of the parts, in any order, the bytes that one sweep writes", () => {
    const { status, stdout } = merge("part-2", "part-3", "part-1", "--out", "joined", "--json");
    expect(status).toBe(0);
    expect(bytes("joined")).toEqual(bytes("whole"));
    expect(JSON.parse(stdout)).toMatchObject({ schema_version: 1, runs: 16 });
    const descriptor = (folder: string) => {
      const text = readFileSync(join(cwd, folder, "datapackage.json"), "utf8");
      const { "tickwright:made": made, ...rest } = JSON.parse(text);
      expect(made.command[0]).toBe(folder === "joined" ? "merge" : "sweep");
      return rest;
    };
    expect(descriptor("joined")).toEqual(descriptor("whole"));
  });

  it.each([
    ["a missing part", ["part-1", "part-3"], /missing: --shard 2\/3; sweep them/],
    ["a part given twice", ["part-1", "part-1", "part-2"], /are both part 1 of 3/],
    ["a folder without a sweep", ["part-1", "nowhere"], /nowhere: no sweep is there/],
  ])("refuses %s and names it", (_, folders, message) => {
    const { status, stderr } = merge(...folders, "--out", "refused");
    expect(status).toBe(2);
    expect(stderr).toMatch(message);
  });

  it("refuses parts of different sweeps, or of another number of parts", () => {
    shard("2/3", "other", ["--seeds", "9"]);
    expect(merge("part-1", "other", "part-3", "--out", "refused").stderr).toMatch(
      /part-1 and other are parts of different sweeps: they differ in --seeds/,
    );
    shard("2/4", "quarter");
    expect(merge("part-1", "quarter", "--out", "refused").stderr).toMatch(
      /part-1 is a part of 3, quarter one of 4/,
    );
  });

  it("refuses a part whose rows are not those that were written", () => {
    const text = readFileSync(join(cwd, "part-1/summary.csv"), "utf8");
    const descriptor = readFileSync(join(cwd, "part-1/datapackage.json"), "utf8");
    const cut = join(cwd, "cut");
    mkdirSync(cut);
    writeFileSync(join(cut, "summary.csv"), text.split("\r\n").slice(0, -2).join("\r\n"));
    writeFileSync(join(cut, "datapackage.json"), descriptor);
    const { status, stderr } = merge("cut", "part-2", "part-3", "--out", "refused");
    expect(status).toBe(2);
    expect(stderr).toMatch(/cut\/summary\.csv: is not the file that was written/);
  });

  it("refuses a part whose descriptor was changed since", () => {
    const changed = join(cwd, "changed");
    mkdirSync(changed);
    const text = (name: string) => readFileSync(join(cwd, "part-1", name), "utf8");
    writeFileSync(join(changed, "summary.csv"), text("summary.csv"));
    const descriptor = text("datapackage.json").replace('"rows": 6', '"rows": 7');
    writeFileSync(join(changed, "datapackage.json"), descriptor);
    const { status, stderr } = merge("changed", "part-2", "part-3", "--out", "refused");
    expect([status, stderr.trimEnd()]).toEqual([
      2,
      "tickwright: changed/datapackage.json: was changed since it was written; sweep that part again",
    ]);
  });

  it("joins what GNU parallel made of it, as the handbook shows", (context) => {
    const found = spawnSync("parallel", ["--version"], { encoding: "utf8" });
    if (found.status !== 0) {
      expect(process.env.CI, "GNU parallel must be there in CI").not.toBe("true");
      context.skip("GNU parallel is not installed");
    }
    const bin = join(cwd, "bin");
    mkdirSync(bin);
    writeFileSync(join(bin, "tickwright"), `#!/bin/sh\nexec ${process.execPath} ${main} "$@"\n`, {
      mode: 0o755,
    });
    const script = [
      "parallel --jobs 2 tickwright sweep school-laboratory --vary counter.dead_time_s=0,0.5 \\",
      "  --seeds 8 --length 100 --workers 1 --resume --shard {}/4 --out gnu-{} ::: 1 2 3 4",
      "tickwright merge gnu-1 gnu-2 gnu-3 gnu-4 --out gnu",
    ].join("\n");
    const { status, stderr } = spawnSync("bash", ["-ec", script], {
      cwd,
      encoding: "utf8",
      env: { PATH: `${bin}:${process.env.PATH}`, HOME: cwd },
    });
    expect({ status, stderr }).toEqual({ status: 0, stderr: expect.any(String) });
    expect(bytes("gnu")).toEqual(bytes("whole"));
  });
});
