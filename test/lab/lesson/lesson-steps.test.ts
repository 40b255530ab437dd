import { describe, expect, it } from "vitest";
import { RunRecord, Simulation, settleRun } from "../../../src/chain/index.ts";
import { plainEstimates } from "../../../src/judgement/index.ts";
import { Bench, lessonSteps, readingDigits } from "../../../src/lab/index.ts";
import { runReadings } from "../../../src/planning/index.ts";
import type { PeriodReadings } from "../../../src/readings/index.ts";
import { toMarkup } from "../../../src/view/chart/index.ts";
import { demo } from "../../page/lesson-file.ts";
import { demos, holdAnswers, rightOf, shownOf } from "./lesson-cases.ts";

describe("the steps of the lesson", () => {
  it.each(demos)("say something of %s in words, picture and table", async (name) => {
    const bench = new Bench(demo(name));
    for (const { id } of lessonSteps({ scenario: bench.lesson, title: "" })) {
      // A hundred runs take a second or two; they have a test of their own.
      if (id === "hundred" && name !== "school-laboratory") continue;
      const { shown } = await shownOf(bench, id);
      expect(shown.words.length, id).toBeGreaterThan(20);
      expect(shown.table.rows.length, id).toBeGreaterThan(0);
      expect(new Set(shown.table.rows.map((row) => row.length)), id).toEqual(
        new Set([shown.table.head.length]),
      );
      for (const picture of shown.pictures) {
        const markup = toMarkup(picture({ title: "", idPrefix: "a", width: 320 }));
        expect(markup, id).toMatch(/^<svg/);
        expect(markup, id).not.toMatch(/NaN/);
      }
    }
  });

  // The right answer follows from theory: each step has one, and the same for every seed.
  it.each(demos)("have right answers that hang on no seed (%s)", async (name) => {
    await holdAnswers(new Bench(demo(name)), ["other"]);
  });

  // White phase noise of 1 ms on every edge of a 1 s clock: a period is off by √2 ms, that is 122 s/day, and the
  // scatter of gates falls as 1/n (Rubiola 2005).
  it("find the laws of white phase noise in the plainest clock", async () => {
    const bench = new Bench(demo("school-laboratory"));
    const { answer } = await shownOf(bench, "period");
    expect((answer as { theory: number }).theory).toBeCloseTo(Math.SQRT2 * 1e-3, 5);
    expect(await rightOf(bench, "draw", "laws")).toEqual(["1.0-0.50-0.20-0.10-0.050-0.020-0.010"]);
    const { step } = await shownOf(bench, "stages");
    const choices = step.question.kind === "choice" ? step.question.choices : [];
    expect((await rightOf(bench, "stages", "laws")).map((i) => choices[Number(i)])).toEqual([
      "the reference oscillator",
    ]);
  });

  it("hold a wandering oscillator against its long run, not against its own wandering", async () => {
    const bench = new Bench(demo("observatory-own-oscillator"));
    const { shown, answer } = await shownOf(bench, "period");
    const { rate, longRun } = answer as { rate: Float64Array; longRun: number };
    // By hand: offset −6.1e-5, and parabolic −3.4e-8 times the mean square of 16 °C ± 5 K about 25 °C.
    expect(longRun).toBeCloseTo(-6.1e-5 - 3.4e-8 * (81 + 12.5), 8);
    const off = Math.abs(rate[0]! - longRun) * 86_400_000;
    expect(shown.words).toContain(`off by ${Number(off.toPrecision(2))} ms/day`);
  });

  it("blame amplitude noise on the bursts, where the receiver has none of its own", async () => {
    const scenario = demo("observatory");
    const drive = { ...scenario.drive!, carrierLock: "locked" as const, amplitudeNoise: 0.05 };
    const receiver = { ...scenario.receiver!, noiseV: 1e-3 };
    const bench = new Bench({ ...scenario, drive, receiver });
    const { step } = await shownOf(bench, "stages");
    const choices = step.question.kind === "choice" ? step.question.choices : [];
    expect((await rightOf(bench, "stages", "blame")).map((i) => choices[Number(i)])).toEqual([
      "the tone bursts",
    ]);
  });

  it("count the temperature in how long it takes, and keep the two rates apart", async () => {
    const bench = new Bench(demo("observatory-own-oscillator"));
    const { answer, shown } = await shownOf(bench, "long");
    const { ways } = answer as { ways: readonly { overRun: number; longRun: number }[] };
    const quickest = (of: "overRun" | "longRun") =>
      Math.min(...ways.map((way) => way[of]).filter((length) => length > 0));
    // 10 ms/day of 264 ms/day of swing that falls as D/(πL): more than eight days.
    expect(quickest("longRun")).toBeGreaterThan(8 * 86400);
    expect(quickest("overRun")).toBeLessThan(86400);
    expect(shown.words).toMatch(/The rate over the run itself is known so well after/);
  });

  // One run of the page held against what the command line does with the same scenario, seed and gate.
  it("give the numbers of the command line, to the last bit", async () => {
    const bench = new Bench(demo("observatory"));
    const { answer } = await shownOf(bench, "period", "bits");
    const { rate } = answer as { rate: Float64Array };
    const scenario = {
      ...demo("observatory"),
      counter: { ...demo("observatory").counter, gate: "single" as const },
    };
    const { options } = settleRun(scenario, {
      seed: "bits",
      length: null,
      readings: 100,
      recording: null,
      wantsTicks: false,
      wantsBursts: false,
    });
    const record = RunRecord.of(scenario);
    const readings: number[] = [];
    new Simulation(scenario, options, {
      reading(reading) {
        record.add(reading);
        readings.push(reading.interval / reading.cycles);
      },
    }).run();
    const { period } = answer as { period: Float64Array };
    expect([...period]).toEqual(readings);
    const seen = runReadings(scenario, record.read()) as PeriodReadings;
    expect(plainEstimates(seen)[0]!.rate).toBeCloseTo(
      100 / rate.reduce((sum, value) => sum + 1 / (1 + value), 0) - 1,
      12,
    );
  });

  it("tell no answer where the settings are not those of the question", async () => {
    const bench = new Bench(demo("school-laboratory"));
    expect((await shownOf(bench, "stages", "s", { off: "counter" })).shown.grade).toBeNull();
    expect((await shownOf(bench, "hundred", "s", { about: "long" })).shown.grade).toBeNull();
  });

  // About five of a hundred intervals at 95 % miss: between 0 and 12 in 99.9 % of such hundreds (binomial).
  it("hold about ninety-five of a hundred runs, by each estimate", async () => {
    const { shown } = await shownOf(new Bench(demo("school-laboratory")), "hundred", "hundred");
    for (const [name, missed] of shown.table.rows.slice(0, 3)) {
      const [count, of] = missed!.split(" of ").map(Number);
      expect(of, name).toBe(100);
      expect(count, name).toBeLessThanOrEqual(12);
    }
  });

  it("leave no digit of a period that is shorter than the noise it is read with", async () => {
    // 10 MHz, read with 5 µs of trigger noise at each end.
    const { shown } = await shownOf(new Bench(demo("reference-direct")), "period");
    const { value, uncertainty, decimals } = shown.reading!;
    expect(uncertainty).toBeGreaterThan(3e-6);
    expect(readingDigits(value, uncertainty, decimals).meant).toBe("");
  });
});
