import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { emptyFolder, tickwright } from "./cli.ts";

const sha256 = (path: string) => createHash("sha256").update(readFileSync(path)).digest("hex");

describe("tickwright run", () => {
  it("writes readings and a descriptor that digests them, and says what it found", () => {
    const cwd = emptyFolder();
    const { status, stdout, stderr } = tickwright(["run", "observatory", "--readings", "60"], {
      cwd,
    });
    expect([status, stderr]).toEqual([0, ""]);
    expect(stdout).toMatch(/^Observatory sidereal clock on a rubidium line\nseed observatory-1; /);
    expect(stdout).toMatch(/ 60 readings,\s+gate 50 s/);
    const folder = join(cwd, "out/observatory-observatory-1");
    expect(readdirSync(folder).sort()).toEqual(["datapackage.json", "readings.csv"]);
    const descriptor = JSON.parse(readFileSync(join(folder, "datapackage.json"), "utf8"));
    expect(descriptor.resources[0].hash).toBe(`sha256:${sha256(join(folder, "readings.csv"))}`);
    const rows = readFileSync(join(folder, "readings.csv"), "utf8").split("\r\n");
    expect(rows[0]).toBe("reading,start_s,cycles,period_s,frequency_hz,rate,flag");
    expect(rows.length).toBe(62);
  });

  it("tells how long it simulated where readings end it", () => {
    const cwd = emptyFolder();
    for (const recording of ["bursts", "ticks", "lazy"]) {
      const more = ["--readings", "3", "--recording", recording, "--json", "--out", recording];
      const { stdout } = tickwright(["run", "observatory", ...more], { cwd });
      const [, ...rows] = readFileSync(join(cwd, recording, "readings.csv"), "utf8").split("\r\n");
      const [, start, cycles, period] = rows[2]!.split(",").map(Number);
      // Counter time and true time differ by far less than a tick.
      expect(JSON.parse(stdout).length_s).toBeCloseTo(start! + cycles! * period!, 1);
    }
  });

  it("gives the same bytes for the same scenario and seed, and others for another seed", () => {
    const csv = (seed: string) =>
      tickwright(["run", "school-laboratory", "--readings", "50", "--seed", seed, "--out", "-"])
        .stdout;
    expect(csv("a")).toBe(csv("a"));
    expect(csv("a")).not.toBe(csv("b"));
  });

  it("writes the same readings whatever else is written within a recording mode", () => {
    const cwd = emptyFolder();
    const plain = tickwright(["run", "station-dial", "--length", "600", "--out", "a"], { cwd });
    const more = tickwright(
      ["run", "station-dial", "--length", "600", "--ticks", "--bursts", "--plot", "--out", "b"],
      { cwd },
    );
    expect([plain.status, more.status]).toEqual([0, 0]);
    expect(sha256(join(cwd, "a/readings.csv"))).toBe(sha256(join(cwd, "b/readings.csv")));
    const ticks = readFileSync(join(cwd, "b/ticks.csv"), "utf8").split("\r\n");
    expect(ticks[0]).toBe("tick,time_error_s,source");
    // The burst of the 600th second opens within the run; its step would come after the end.
    expect(ticks.length - 2).toBe(599);
    const bursts = readFileSync(join(cwd, "b/bursts.csv"), "utf8").split("\r\n");
    expect(bursts[0]).toBe("burst,start_error_s,delay_s,outcome");
    expect(Math.abs(bursts.length - 2 - 2400)).toBeLessThanOrEqual(1);
  });

  it("says when an output forces another recording mode", () => {
    const cwd = emptyFolder();
    const args = ["run", "station-dial", "--recording", "lazy", "--length", "100", "--ticks"];
    expect(tickwright(args, { cwd }).stderr).toMatch(
      /warning: recording: is ticks because of the ticks/,
    );
  });

  it("gives the truth beside the estimates with --json", () => {
    const cwd = emptyFolder();
    const { stdout } = tickwright(["run", "school-laboratory", "--json", "--seed", "s"], { cwd });
    const summary = JSON.parse(stdout);
    expect(summary.schema_version).toBe(1);
    expect(summary.estimates.map((e: { method: string }) => e.method)).toEqual([
      "mean_of_readings",
      "end_to_end",
      "line_fit",
      "best_fit",
    ]);
    for (const estimate of summary.estimates) {
      const [low, high] = estimate.interval_95;
      // Four half-widths: nothing but a defect is that far off.
      const reach = 2 * (high - low);
      expect(Math.abs(estimate.rate - estimate.truth.rate_over_run)).toBeLessThan(reach);
    }
  });

  it.each(["observatory", "station-dial", "harbour-tide-gauge"])(
    "finds in its readings what judge finds in the file: %s",
    (name) => {
      const cwd = emptyFolder();
      const run = JSON.parse(tickwright(["run", name, "--json", "--out", "r"], { cwd }).stdout);
      const judged = JSON.parse(tickwright(["judge", "r/readings.csv", "--json"], { cwd }).stdout);
      // The file has the digits of the counter, and time errors a tick after their second.
      for (const [
        i,
        { method, applies, rate, standard_uncertainty: u },
      ] of run.estimates.entries()) {
        const found = judged.estimates[i];
        expect([found.method, found.applies]).toEqual([method, applies]);
        if (!applies) continue;
        expect(Math.abs(found.rate - rate)).toBeLessThan(0.05 * u);
        expect(found.standard_uncertainty / u).toBeCloseTo(1, 1);
      }
    },
  );

  it("makes up a seed where there is none, says it, and runs again from it", () => {
    const cwd = emptyFolder();
    const scenario =
      "length_s: 100\nclock: {tick_hz: 1}\nreference: {nominal_hz: 10e6}\ncounter: {gate_s: 5}\n";
    writeFileSync(join(cwd, "s.yaml"), scenario);
    const first = JSON.parse(tickwright(["run", "s.yaml", "--json"], { cwd }).stdout);
    expect(first.seed).toMatch(/^[0-9a-f]{12}$/);
    const again = tickwright(["run", "s.yaml", "--seed", first.seed, "--out", "x"], { cwd });
    expect(again.status).toBe(0);
    expect(sha256(join(cwd, "x/readings.csv"))).toBe(sha256(join(cwd, first.files.readings)));
  });

  it("takes a scenario from standard input", () => {
    const input =
      "length_s: 60\nclock: {tick_hz: 1}\nreference: {nominal_hz: 1e6}\ncounter: {gate_s: 5}\n";
    const { status, stdout } = tickwright(["run", "-", "--seed", "1", "--out", "-"], { input });
    expect(status).toBe(0);
    expect(stdout.split("\r\n").length).toBeGreaterThan(10);
  });

  it("leaves no table and no picture of an earlier run beside its own, but what is not of its kind", () => {
    const cwd = emptyFolder();
    const args = ["run", "school-laboratory", "--readings", "40", "--out", "r", "--quiet"];
    tickwright([...args, "--ticks", "--plot"], { cwd });
    expect(readdirSync(join(cwd, "r"))).toEqual(
      expect.arrayContaining(["ticks.csv", "readings.svg"]),
    );
    writeFileSync(join(cwd, "r/notes.txt"), "mine");
    expect(tickwright([...args, "--seed", "other", "--force"], { cwd }).status).toBe(0);
    expect(readdirSync(join(cwd, "r")).sort()).toEqual([
      "datapackage.json",
      "notes.txt",
      "readings.csv",
    ]);
    // Nor does it take pictures away from a folder that holds no results.
    writeFileSync(join(cwd, "stability.svg"), "mine");
    tickwright(["run", "school-laboratory", "--readings", "9", "--out", "."], { cwd });
    expect(readFileSync(join(cwd, "stability.svg"), "utf8")).toBe("mine");
  });

  it("says so where a record is too short for a picture", () => {
    const cwd = emptyFolder();
    const one = ["run", "observatory", "--readings", "1", "--plot", "--out", "r"];
    const { status, stderr } = tickwright(one, { cwd });
    expect([status, stderr]).toEqual([0, "warning: --plot: the run is too short for a picture\n"]);
    const judged = tickwright(["judge", "r/readings.csv", "--plot", "--out", "none"], { cwd });
    expect(judged.status).toBe(0);
    expect(judged.stdout).toContain("Note: the record is too short for a picture.");
    expect(readdirSync(cwd)).toEqual(["r"]);
  });

  it("does not replace a picture without --force either", () => {
    const cwd = emptyFolder();
    writeFileSync(join(cwd, "time-error.svg"), "mine");
    const args = ["run", "school-laboratory", "--readings", "9", "--plot", "--out", "."];
    const refused = tickwright(args, { cwd });
    expect(refused.status).toBe(2);
    expect(refused.stderr).toMatch(/time-error.svg exists already; give --force/);
    expect(readFileSync(join(cwd, "time-error.svg"), "utf8")).toBe("mine");
  });

  it("does not replace what is in a folder of the user's own without --force", () => {
    const cwd = emptyFolder();
    writeFileSync(join(cwd, "readings.csv"), "mine");
    const args = ["run", "school-laboratory", "--readings", "5", "--out", "."];
    const refused = tickwright(args, { cwd });
    expect(refused.status).toBe(2);
    expect(refused.stderr).toMatch(/readings.csv exists already; give --force/);
    expect(readFileSync(join(cwd, "readings.csv"), "utf8")).toBe("mine");
    expect(readdirSync(cwd)).toEqual(["readings.csv"]);
    expect(tickwright([...args, "--force"], { cwd }).status).toBe(0);
    expect(existsSync(join(cwd, "datapackage.json"))).toBe(true);
  });

  it("keeps a seed that looks like a path inside out/", () => {
    const cwd = emptyFolder();
    const args = ["run", "school-laboratory", "--readings", "5", "--seed", "../../x/y"];
    const { status } = tickwright(args, { cwd });
    expect(status).toBe(0);
    expect(readdirSync(join(cwd, "out"))[0]).toMatch(/^school-laboratory-[\w.-]+$/);
    expect(readdirSync(cwd)).toEqual(["out"]);
  });

  it("does not pass the clock's own oscillator off as the drive where most bursts are missed", () => {
    const cwd = emptyFolder();
    const args = [
      "run",
      "observatory",
      "--length",
      "300",
      "--set",
      "receiver.threshold_v=9",
      "--json",
    ];
    const { warnings, estimates } = JSON.parse(tickwright(args, { cwd }).stdout);
    expect(warnings.map((w: { code: string }) => w.code)).toContain("hardly_driven");
    for (const { applies, why } of estimates) {
      expect(applies).toBe(false);
      expect(why).toMatch(/ran on its own oscillator for \d+ % of the run/);
    }
    // Five minutes of two hours are set apart as a span: the estimate of the rest stands.
    const dial = JSON.parse(tickwright(["run", "station-dial", "--json"], { cwd }).stdout);
    expect(dial.estimates[0].applies).toBe(true);
  });
});
