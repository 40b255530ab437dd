import { appendFileSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { emptyFolder, tickwright } from "./cli.ts";

describe("tickwright replay", () => {
  const cwd = emptyFolder();
  beforeAll(() => {
    const args = ["run", "station-dial", "--length", "1500", "--ticks", "--bursts", "--gate", "5"];
    expect(tickwright([...args, "--out", "run"], { cwd }).status).toBe(0);
  });

  it("comes to the same digests", () => {
    const { status, stdout } = tickwright(["replay", "run"], { cwd });
    expect(stdout).toBe("readings.csv: the same\nticks.csv: the same\nbursts.csv: the same\n");
    expect(status).toBe(0);
  });

  it("ends with status 1 when a file was changed since", () => {
    const file = join(cwd, "run/ticks.csv");
    const text = readFileSync(file, "utf8");
    appendFileSync(file, "x");
    const { status, stdout } = tickwright(["replay", "run", "--json"], { cwd });
    writeFileSync(file, text);
    expect(status).toBe(1);
    const result = JSON.parse(stdout);
    expect(result.same).toBe(false);
    expect(result.files.map((f: { same: boolean }) => f.same)).toEqual([true, false, true]);
  });

  it("ends with status 1 when the scenario recorded is another", () => {
    const file = join(cwd, "run/datapackage.json");
    const text = readFileSync(file, "utf8");
    writeFileSync(file, text.replaceAll('"seed": "station-1"', '"seed": "station-2"'));
    const { status, stdout } = tickwright(["replay", "run"], { cwd });
    writeFileSync(file, text);
    expect(status).toBe(1);
    expect(stdout).toMatch(/readings.csv: DIFFERS: run again it comes out otherwise/);
  });

  it("says what is wrong with a folder that holds no run", () => {
    const folder = emptyFolder();
    expect(tickwright(["replay", folder]).status).toBe(3);
    writeFileSync(join(folder, "datapackage.json"), "{}");
    const { status, stderr } = tickwright(["replay", folder]);
    expect(status).toBe(2);
    expect(stderr).toMatch(/holds no provenance of a run/);
  });
});
