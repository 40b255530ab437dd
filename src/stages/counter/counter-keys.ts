import { z } from "zod";
import {
  fraction,
  inTerms,
  likeSchema,
  noiseSchema,
  nonNegative,
  positive,
  probability,
  resolveNoise,
  type SenseReport,
} from "../../keys/index.ts";
import type { CounterParameters } from "./counter-parameters.ts";
import { senseOfCounter, timeBaseNoise } from "./counter-sense.ts";

/** Edge rate of a counter's own time base, which is taken to be of 10 MHz; Hz. */
const timeBaseEdgeRate = 10e6;

const ownTimeBaseSchema = z
  .strictObject({
    like: likeSchema,
    fractional_offset: fraction(
      "Fractional frequency offset; dimensionless. A fast time base makes readings slow",
    ).default(0),
    uncertainty: nonNegative(
      "Half-width of the bound within which the offset is known; dimensionless. Default: |fractional_offset|",
    ).optional(),
    noise: noiseSchema.prefault({}),
  })
  .meta({ description: "The counter's own time base" });

/**
 * The bench counter.
 *
 * Where no time base is named the counter has a perfect one of its own, so that readings are then
 * about true time; `reference` puts it on the reference of the chain.
 */
const counterSchema = z
  .strictObject({
    input: z
      .enum(["clock", "synthesizer", "reference"])
      .meta({ description: "What the counter looks at" })
      .default("clock"),
    technique: z
      .enum(["reciprocal", "direct", "time_interval"])
      .meta({ description: "How it counts" })
      .default("reciprocal"),
    gate_s: z
      .union([z.number().gt(0), z.literal("single")], {
        error: "must be a number of seconds > 0, or the word single",
      })
      .meta({
        description:
          "Gate length; s, or single for one period a reading. Required, but for time_interval, where it is the time between readings and 1 by default",
      })
      .optional(),
    gate_max_s: positive("The longest gate the instrument offers; s").optional(),
    dead_time_s: nonNegative("Dead time between readings; s. 0: back to back").default(0),
    holdoff_s: nonNegative("Edges within this time after an accepted one are ignored; s").default(
      0,
    ),
    resolution_s: nonNegative("Resolution of a time stamp; s").default(0),
    trigger_noise_s: nonNegative("rms trigger noise of one edge; s").default(0),
    missed_edge_probability: probability("Probability that an edge is not counted").default(0),
    extra_edge_probability: probability("Probability that an edge is counted twice").default(0),
    display_digits: z
      .int()
      .min(1)
      .max(17)
      .meta({ description: "Digits of the display. Default: full precision" })
      .optional(),
    timebase: z
      .union([z.literal("reference"), ownTimeBaseSchema], {
        error: "must be the word reference, or a section with fractional_offset",
      })
      .meta({
        description: "reference, or a time base of the counter's own. Default: a perfect one",
      })
      .prefault({}),
  })
  .meta({ description: "The bench counter and what it looks at" });

/**
 * The counter section in the terms of the program.
 *
 * @param counter - the section
 * @param report - where it is noted that keys do not fix gate or noise
 */
function resolveCounter(
  counter: z.output<typeof counterSchema>,
  report: SenseReport,
): CounterParameters {
  const { timebase, gate_s, gate_max_s = null, display_digits = null } = counter;
  if (gate_s === undefined && counter.technique !== "time_interval") {
    report.fault(
      ["counter", "gate_s"],
      "is missing",
      "a number of seconds > 0, or the word single",
    );
  }
  const settled = { ...counter, gate_s: gate_s ?? 1, gate_max_s, display_digits };
  if (timebase === "reference") return { ...inTerms(settled), timebase };
  const uncertainty = timebase.uncertainty ?? Math.abs(timebase.fractional_offset);
  const noise = resolveNoise(timebase.noise, timeBaseEdgeRate, timeBaseNoise, report);
  return {
    ...inTerms(settled),
    timebase: { fractionalOffset: timebase.fractional_offset, uncertainty, noise },
  };
}

/** What the counter says of its section. */
export const counterKeys = {
  schema: counterSchema,
  resolve: resolveCounter,
  sense: senseOfCounter,
};
