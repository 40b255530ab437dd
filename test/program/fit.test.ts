import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { emptyFolder, type Result, tickwright } from "./cli.ts";

describe("tickwright fit", () => {
  const cwd = emptyFolder();
  const fitted = join(cwd, "fitted.yaml");
  let fit: Result;

  beforeAll(() => {
    tickwright(["run", "observatory", "--out", "made", "--quiet"], { cwd });
    fit = tickwright(["fit", "made/readings.csv", "--out", "fitted.yaml", "--json"], { cwd });
  });

  it("writes the scenario where it is told to, and the parameters as JSON", () => {
    expect([fit.status, fit.stderr]).toEqual([0, ""]);
    const { parameters } = JSON.parse(fit.stdout);
    // Theory of the scenario: 557 µs rms from its detector (`check observatory`).
    const [low, high] = parameters.edge_jitter_s.interval_95;
    expect(low).toBeLessThan(557e-6);
    expect(high).toBeGreaterThan(557e-6);
    expect(readFileSync(fitted, "utf8")).toMatch(/^# /);
  });

  it.each([
    [["check", "fitted.yaml"]],
    [["run", "fitted.yaml", "--readings", "5", "--out", "-", "--quiet"]],
    [["plan", "fitted.yaml", "--within", "1e-6", "--quiet"]],
  ])("makes a scenario that can be used: %j", (args) => {
    const { status, stderr } = tickwright(args, { cwd });
    expect([status, stderr]).toEqual([0, ""]);
  });

  it("replaces nothing unasked", () => {
    const before = readFileSync(fitted, "utf8");
    const again = tickwright(["fit", "made/readings.csv", "--out", "fitted.yaml"], { cwd });
    expect(again.status).toBe(2);
    expect(again.stderr).toMatch(/exists already; give --force/);
    expect(readFileSync(fitted, "utf8")).toBe(before);
  });
});
