import { describe, expect, it } from "vitest";
import { tickwright } from "./cli.ts";

const json = (args: readonly string[]) => {
  const { status, stdout, stderr } = tickwright(["plan", ...args, "--json"]);
  expect([status, stderr]).toEqual([0, ""]);
  return JSON.parse(stdout);
};

const perfect = ["--set", "counter.timebase.uncertainty=0"];
const day = 86400;
const year = 365.25 * day;

describe("tickwright plan", () => {
  it("says how long each way of measuring takes on the observatory's clock", () => {
    const { strategies, confidence, within } = json([
      "observatory",
      "--within",
      "1e-9",
      ...perfect,
    ]);
    expect([within, confidence]).toEqual([1e-9, 0.95]);
    const length = (method: string) =>
      strategies.find((row: { method: string }) => row.method === method).length_s;
    // Orders of magnitude by hand, from 0.56 ms of timing noise a tick: √2·σ/T for the ends, √12·σ/(√N·T) for a line,
    // √2·σ/√K for single periods (Rubiola 2005; Rubiola et al. 2016).
    expect(length("stamped_ticks_line")).toBeGreaterThan(3 * 3600);
    expect(length("stamped_ticks_line")).toBeLessThan(12 * 3600);
    expect(length("back_to_back_mean")).toBeGreaterThan(14 * day);
    expect(length("back_to_back_mean")).toBeLessThan(30 * day);
    expect(length("single_periods")).toBeGreaterThan(1e5 * year);
    const text = tickwright(["plan", "observatory", "--within", "1e-9", ...perfect]).stdout;
    expect(text).toMatch(
      /the shortest run takes \d+ h\s+\d+\s+min:\s+every tick stamped, line\s+fit\./,
    );
    expect(text).toMatch(/periods with dead time +mean of readings +single +\d{3} 000 years/);
    expect(text).toMatch(/gates back to back +mean of readings +50 s +1\d\.\d days/);
    for (const line of text.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("says what stands in the way where no run is long enough", () => {
    const { status, stdout } = tickwright(["plan", "observatory", "--within", "1e-9"]);
    expect(status).toBe(0);
    expect(stdout.replace(/\s+/g, " ")).toMatch(
      /No run, however long, .*: the counter's time base is known to 1e-8 \(counter\.timebase\.uncertainty\)\./,
    );
    const { strategies } = json(["observatory", "--within", "1e-9"]);
    for (const row of strategies) {
      expect([row.reachable, row.length_s, row.readings]).toEqual([false, null, null]);
      expect(row.limited_by).toMatch(/time base/);
    }
  });

  it("gives with --length the accuracy that --within asked for, within 1 %", () => {
    const { strategies } = json(["observatory", "--within", "1e-8", ...perfect]);
    for (const { method, length_s } of strategies) {
      const { predictions } = json([
        "observatory",
        "--length",
        String(length_s * 1.0000001),
        ...perfect,
      ]);
      const row = predictions.find((other: { method: string }) => other.method === method);
      expect(row.half_width / 1e-8).toBeLessThan(1.0000001);
      // A few readings of a long gate step by more than a hundredth.
      if (row.readings > 200) expect(row.half_width / 1e-8).toBeGreaterThan(0.99);
    }
  });

  it("reads accuracies and lengths as people write them", () => {
    const ofDay = json(["school-laboratory", "--within", "86.4 ms/day"]);
    expect(ofDay.within).toBeCloseTo(1e-6, 15);
    expect(json(["school-laboratory", "--length", "1h"]).length_s).toBe(3600);
  });

  it("holds the plan to simulated runs, the same whatever the number of workers", () => {
    const args = ["school-laboratory", "--length", "2min", "--verify", "60"];
    const [one, two] = ["1", "2"].map((workers) => json([...args, "--workers", workers]));
    expect(two).toEqual(one);
    for (const row of one.predictions) {
      expect([row.method, row.runs, row.agrees]).toEqual([row.method, 60, true]);
      // 60 runs know an rms to 9 %: four standard deviations.
      expect(Math.abs(row.observed_rms / row.standard_uncertainty - 1)).toBeLessThan(0.37);
    }
  });

  it("ends with status 1 where the runs contradict the theory", () => {
    // Ticks in step with the time base are all cut alike, so that nothing scatters, against what theory says of counts.
    const sets = [
      "reference.noise={}",
      "counter.resolution_s=1e-3",
      "reference.fractional_offset=0",
    ];
    const { status, stdout } = tickwright([
      ...["plan", "school-laboratory", "--length", "1min", "--verify", "20"],
      ...sets.flatMap((set) => ["--set", set]),
    ]);
    expect(status).toBe(1);
    expect(stdout).toMatch(
      /every tick stamped +line fit .* 0\.00 to 0\.00$[\s\S]*^DIFFERS: every tick stamped, line fit$/m,
    );
  });

  it("skips what would take too long, and says so", () => {
    const args = ["observatory", "--length", "30d", "--verify", "1000", "--budget-time", "1ms"];
    const { status, stdout } = tickwright(["plan", ...args]);
    expect(status).toBe(0);
    expect(stdout).toMatch(/not simulated: every tick stamped, line fit:/);
    expect(stdout.replace(/\s+/g, " ")).toMatch(
      /line fit: 1000 runs would take about .* to simulate/,
    );
  });

  it("says what the dial will be off by: ageing and setting error, by hand", () => {
    const sets = ["--set", "reference.noise={}", "--set", "reference.aging_per_day=1e-9"];
    const { predictions } = json([
      ...["observatory-own-oscillator", "--length", "1d", "--ahead", "10d", "--quiet"],
      ...[
        ...sets,
        "--set",
        "reference.temperature={}",
        "--set",
        "reference.fractional_offset=1e-6",
      ],
    ]);
    const { ahead } = predictions.find(
      (row: { method: string }) => row.method === "stamped_ticks_line",
    );
    // Ten days at 1e-6, and ageing from the first day to the eleventh: (11² − 1²)/2·1e-9 days.
    expect(ahead.error_s).toBeCloseTo(day * (10e-6 + 60e-9), 8);
    const [low, high] = ahead.interval_s;
    expect((low + high) / 2).toBeCloseTo(ahead.error_s, 12);
    expect((high - low) / 2).toBeGreaterThan(ahead.systematic_bound_s);
  });

  it.each([
    [[], /give either --within or --length/],
    [["--within", "1e-9", "--length", "1h"], /give either --within or --length/],
    [["--within", "soon"], /must be an accuracy such as 1e-9/],
    [["--within", "1e-9", "--confidence", "95"], /must be a probability above 0 and below 1/],
    [["--length", "1h", "--verify", "3"], /must be a whole number of at least 10/],
  ])("refuses %j", (args, message) => {
    const { status, stderr } = tickwright(["plan", "school-laboratory", ...args]);
    expect(status).toBe(2);
    expect(stderr).toMatch(message);
  });
});
