import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { emptyFolder, tickwright } from "./cli.ts";

const json = (args: readonly string[], cwd = emptyFolder()) => {
  const { status, stdout } = tickwright(["budget", ...args, "--json"], { cwd });
  expect(status).toBe(0);
  return JSON.parse(stdout);
};

interface Row {
  stage: string;
  cause: string;
  kind: string;
  fraction_of_period_rms: number;
}

describe("tickwright budget", () => {
  it("adds squares to the random sum, and lists the largest first", () => {
    const { rows, total_random_rms, gate_s } = json(["observatory", "--no-simulation"]);
    const random = (rows as Row[]).filter(({ kind }) => kind === "random");
    const sizes = random.map((row) => row.fraction_of_period_rms);
    expect(Math.hypot(...sizes) / total_random_rms).toBeCloseTo(1, 12);
    expect(sizes).toEqual(sizes.toSorted((a, b) => b - a));
    // 51 ticks of a sidereal second hold a gate of 50 s.
    expect(gate_s).toBeCloseTo(51 / 1.00273790935, 5);
  });

  it("shows what is known by hand: √2·σ/gate of jitter and q/√6/gate of resolution", () => {
    const { rows, total_random_rms, systematic_bound } = json([
      ...["school-laboratory", "--gate", "9.5", "--no-simulation"],
      ...["--set", "counter.timebase={uncertainty: 3e-9}"],
    ]);
    const size = (cause: string) =>
      (rows as Row[]).find((row) => row.cause === cause)!.fraction_of_period_rms;
    // Rubiola 2005: both stamps of a reading are uncertain alike.
    expect(size("white PM") / ((Math.SQRT2 * 1e-3) / 10)).toBeCloseTo(1, 4);
    expect(size("resolution") / (1e-6 / Math.sqrt(6) / 10)).toBeCloseTo(1, 4);
    expect(size("offset")).toBe(1e-6);
    expect(systematic_bound).toBe(3e-9);
    expect(total_random_rms).toBeGreaterThan(size("white PM"));
  });

  it("puts simulated readings beside it, the same whatever the number of workers", () => {
    const [one, two] = ["1", "2"].map((workers) =>
      json(["synthesizer-direct", "--workers", workers]),
    );
    expect(two).toEqual(one);
    expect(one.simulated.effective_readings).toBeGreaterThan(2000);
    expect(Math.abs(one.simulated_random_rms / one.total_random_rms - 1)).toBeLessThan(0.05);
    const [low, high] = one.simulated.interval_95;
    expect(low).toBeLessThan(one.simulated_random_rms);
    expect(high).toBeGreaterThan(one.simulated_random_rms);
  });

  it("prints tables with bars that fit a terminal", () => {
    const { status, stdout } = tickwright(["budget", "observatory", "--gate", "10"]);
    expect(status).toBe(0);
    expect(stdout).toMatch(/receiver: detection delay about its mean .*100 % +█{13}/);
    expect(stdout).toMatch(/no averaging narrows +ms\/day\n +time base: its uncertainty +±0.864\n/);
    for (const line of stdout.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
  });

  it("draws each contribution against the gate", () => {
    const cwd = emptyFolder();
    const { files } = json(["station-dial", "--no-simulation", "--plot", "--out", "pictures"], cwd);
    expect(files).toEqual({ budget: "pictures/budget.svg" });
    const svg = readFileSync(join(cwd, files.budget), "utf8");
    expect(svg).toMatch(/<svg [^>]*role="img"/);
    expect(svg).toContain("counter: trigger noise");
    const again = tickwright(
      ["budget", "station-dial", "--no-simulation", "--plot", "--out", "pictures"],
      { cwd },
    );
    expect([again.status, again.stderr]).toEqual([
      2,
      expect.stringContaining("pictures/budget.svg exists already"),
    ]);
  });

  it("refuses a gate that is none", () => {
    const cwd = emptyFolder();
    const { status, stderr } = tickwright(["budget", "observatory", "--gate", "-1"], { cwd });
    expect([status, stderr]).toEqual([2, expect.stringContaining("counter.gate_s")]);
    expect(existsSync(join(cwd, "out"))).toBe(false);
  });
});
