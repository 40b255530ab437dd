import { nominalPeriod } from "../../../chain/index.ts";
import { plainEstimates } from "../../../judgement/index.ts";
import { normalQuantile, RandomStream } from "../../../numeric/index.ts";
import { predict, runReadings, strategies } from "../../../planning/index.ts";
import type { PeriodReadings } from "../../../readings/index.ts";
import type { Scenario } from "../../../scenario/index.ts";
import { classBudget } from "../../lesson/class-code.ts";
import { gateUnit, withGate } from "../../lesson/lesson-scenario.ts";
import { recordRun } from "../run-lesson.ts";
import { spreadOf } from "../spread-of.ts";
import type { Bench, Task } from "../task.ts";
import { budgetOf, longRunRate, temperatureSwing } from "../theory.ts";

/** The hidden rate lies within so many times what the two ends of the whole time would leave open. */
const hiding = 40;

/** The clock of a class: off by what its word says. */
function classClock(bench: Bench, word: string): Scenario {
  const { lesson } = bench;
  const length = classBudget * gateUnit(lesson);
  const edge = budgetOf(lesson, bench.delay(lesson)).totalRandomRms * nominalPeriod(lesson);
  const hidden = (2 * new RandomStream(word, "class").uniform() - 1) * ((hiding * edge) / length);
  const { reference } = lesson;
  const fractionalOffset = reference.fractionalOffset + hidden;
  return { ...lesson, reference: { ...reference, fractionalOffset } };
}

/** What a pupil's runs found; each has a seed of its own from word and name. */
export const classRuns: Task<"class"> = async (bench, { word, name, runs }, pace) => {
  const clock = classClock(bench, word);
  const found = [];
  for (const [i, [units, readings]] of runs.entries()) {
    const scenario = withGate(clock, units);
    const seed = `${word} ${name} run ${i + 1}`;
    const record = await recordRun(scenario, seed, { readings }, pace);
    const estimates = plainEstimates(runReadings(scenario, record) as PeriodReadings);
    found.push({
      rates: estimates.map(({ method, rate }) => ({ method, rate })),
      scatter: spreadOf(scenario, record).rms,
    });
  }
  return { found };
};

/** What a class was to find, and how well it could have. */
export const classTruth: Task<"truth"> = async (bench, { word }) => {
  const clock = classClock(bench, word);
  const delay = bench.delay(clock);
  const length = classBudget * gateUnit(clock);
  const line = strategies(clock, delay).find((way) => way.method === "stamped_ticks_line")!;
  const { standardUncertainty, sourceDeviation } = predict(clock, line, length);
  const best = normalQuantile(0.975) * Math.hypot(standardUncertainty, sourceDeviation);
  return {
    truth: longRunRate(budgetOf(clock, delay)),
    best: best + temperatureSwing(clock, length),
  };
};
