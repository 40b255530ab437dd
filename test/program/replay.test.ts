import { appendFileSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { isSealed, sealed } from "../../src/cli/index.ts";
import { emptyFolder, tickwright } from "./cli.ts";

describe("tickwright replay", () => {
  const cwd = emptyFolder();
  beforeAll(() => {
    const args = ["run", "station-dial", "--length", "1500", "--ticks", "--bursts", "--gate", "5"];
    expect(tickwright([...args, "--out", "run"], { cwd }).status).toBe(0);
  });

  it("comes to the same digests", () => {
    const { status, stdout } = tickwright(["replay", "run"], { cwd });
    expect(stdout).toBe(
      "readings.csv: the same\nticks.csv: the same\nbursts.csv: the same\ntruth: the same\ndatapackage.json: the same\n",
    );
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

  const file = join(cwd, "run/datapackage.json");
  /** What replay says of another descriptor. */
  const replayed = (text: string) => {
    const before = readFileSync(file, "utf8");
    writeFileSync(file, text);
    const { status, stdout } = tickwright(["replay", "run"], { cwd });
    writeFileSync(file, before);
    return { status, stdout };
  };

  it("ends with status 1 when the truth recorded is another, even under a digest made anew", () => {
    const descriptor = JSON.parse(readFileSync(file, "utf8"));
    descriptor["tickwright:provenance"].truth.steady_rate = 0.5;
    const forged = replayed(JSON.stringify(descriptor));
    expect(forged.status).toBe(1);
    expect(forged.stdout).toMatch(/truth: DIFFERS.*\ndatapackage.json: DIFFERS/);
    const made = replayed(JSON.stringify(sealed(descriptor)));
    expect(made.status).toBe(1);
    expect(made.stdout).toMatch(/truth: DIFFERS.*\ndatapackage.json: the same/);
  });

  it("vouches for no descriptor with one bit changed, but for when it was made and by which words", () => {
    const text = readFileSync(file, "utf8");
    const { "tickwright:made": made, ...rest } = JSON.parse(text);
    expect(Object.keys(made)).toEqual(["created", "command"]);
    const plain = JSON.stringify(rest);
    let changed = 0;
    for (let at = 0; at < plain.length; at += 7) {
      const bit = String.fromCharCode(plain.charCodeAt(at) ^ (1 << (at % 7)));
      const other = plain.slice(0, at) + bit + plain.slice(at + 1);
      let parsed: Record<string, unknown>;
      try {
        parsed = JSON.parse(other);
      } catch {
        continue;
      }
      if (JSON.stringify(parsed) === plain) continue;
      changed++;
      expect(isSealed(parsed), other.slice(Math.max(0, at - 20), at + 20)).toBe(false);
    }
    expect(changed).toBeGreaterThan(500);
    expect(isSealed(JSON.parse(text.replace('"run",', '"walk",')))).toBe(true);
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
