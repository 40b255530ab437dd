import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  budget,
  checkChain,
  delayByPhase,
  planAccuracies,
  planLengths,
} from "../../../src/planning/index.ts";
import { parseScenario, ScenarioError } from "../../../src/scenario/index.ts";
import { budgetToJson, checkToJson, jsonText } from "../../../src/view/table/index.ts";
import { wayInWords } from "../../../src/view/words/index.ts";
import { demo, demos } from "../../scenario/sample.ts";

/** A number over so many decades, as people may choose one. */
const decades = (from: number, to: number) =>
  fc.double({ min: from, max: to, noNaN: true }).map((x) => Number((10 ** x).toPrecision(3)));

/** A key and what it may be; not every demo has it, and not every value goes with the others. */
const change = fc.oneof(
  ...Object.entries({
    length_s: decades(1, 9),
    "counter.gate_s": fc.oneof(decades(-3, 5), fc.constant("single")),
    "counter.dead_time_s": fc.oneof(fc.constant(0), decades(-6, 4)),
    "counter.resolution_s": decades(-12, -1),
    "counter.trigger_noise_s": decades(-12, -1),
    "counter.technique": fc.constantFrom("reciprocal", "direct", "time_interval"),
    "counter.input": fc.constantFrom("clock", "synthesizer", "reference"),
    "counter.missed_edge_probability": decades(-9, -0.1),
    "reference.fractional_offset": decades(-13, -0.5),
    "reference.aging_per_day": decades(-13, -4),
    "reference.noise.white_fm_adev_1s": decades(-14, -2),
    "reference.noise.flicker_fm_adev": decades(-14, -2),
    "reference.noise.random_walk_fm_adev_1s": decades(-17, -4),
    "synthesizer.loop.natural_hz": decades(-4, 4),
    "synthesizer.loop.damping": decades(-2, 2),
    "drive.carrier_hz": decades(0, 4.5),
    "drive.burst_s": decades(-3, 0),
    "drive.amplitude_v": decades(-1, 2),
    "drive.amplitude_noise": decades(-4, -0.2),
    "receiver.time_constant_s": decades(-4, 0),
    "receiver.threshold_v": decades(-1, 1.5),
    "receiver.noise_v": fc.oneof(fc.constant(0), decades(-4, 0.5)),
    "receiver.leak": fc.boolean(),
  }).map(([key, value]) => value.map((chosen) => `${key}=${chosen}`)),
);

describe("planning", () => {
  it("answers every valid scenario with numbers, or null, and no complaint", () => {
    const tried = { valid: 0, refused: 0 };
    const scenarios = fc.tuple(
      fc.constantFrom(...demos),
      fc.array(change, { minLength: 1, maxLength: 4 }),
    );
    fc.assert(
      fc.property(scenarios, ([name, sets]) => {
        let parsed: ReturnType<typeof parseScenario>;
        try {
          parsed = parseScenario(demo(name), name, sets);
        } catch (error) {
          if (!(error instanceof ScenarioError)) throw error;
          tried.refused++;
          return;
        }
        tried.valid++;
        const { scenario, warnings } = parsed;
        // jsonText throws where a number is not finite.
        expect(jsonText(checkToJson(checkChain(scenario, warnings)))).not.toContain("NaN");
        const found = budget(scenario, scenario.counter.gate, delayByPhase(scenario));
        jsonText(budgetToJson(found, null));
        for (const { strategy, prediction } of planAccuracies(scenario, scenario.length).rows) {
          expect(wayInWords(strategy)).not.toBe("");
          if (prediction !== null) expect(prediction.standardUncertainty).not.toBeLessThan(0);
        }
        for (const { result } of planLengths(scenario, 1e-6, 0.95).rows)
          if (result.reachable) expect(result.length).toBeGreaterThan(0);
      }),
      { seed: 61143, numRuns: 60, interruptAfterTimeLimit: 20_000 },
    );
    expect(tried.valid).toBeGreaterThan(0);
  });
});
