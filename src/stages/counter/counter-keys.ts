import { z } from "zod";
import {
  fraction,
  noiseSchema,
  noiseToJson,
  nonNegative,
  positive,
  probability,
  resolveNoise,
  type SenseReport,
} from "../../keys/index.ts";
import type { CounterParameters } from "./counter-parameters.ts";

/** Edge rate of a counter's own time base, which is taken to be of 10 MHz; Hz. */
const timeBaseEdgeRate = 10e6;

/** Where the noise of such a time base stands. */
export const timeBaseNoise = ["counter", "timebase", "noise"];

const ownTimeBaseSchema = z
  .strictObject({
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
export const counterSchema = z
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
export function resolveCounter(
  counter: z.output<typeof counterSchema>,
  report: SenseReport,
): CounterParameters {
  const { timebase } = counter;
  if (counter.gate_s === undefined && counter.technique !== "time_interval") {
    report.fault(
      ["counter", "gate_s"],
      "is missing",
      "a number of seconds > 0, or the word single",
    );
  }
  return {
    input: counter.input,
    technique: counter.technique,
    gate: counter.gate_s ?? 1,
    gateMax: counter.gate_max_s ?? null,
    deadTime: counter.dead_time_s,
    holdoff: counter.holdoff_s,
    resolution: counter.resolution_s,
    triggerNoise: counter.trigger_noise_s,
    missedEdgeProbability: counter.missed_edge_probability,
    extraEdgeProbability: counter.extra_edge_probability,
    displayDigits: counter.display_digits ?? null,
    timebase:
      timebase === "reference"
        ? timebase
        : {
            fractionalOffset: timebase.fractional_offset,
            uncertainty: timebase.uncertainty ?? Math.abs(timebase.fractional_offset),
            noise: resolveNoise(timebase.noise, timeBaseEdgeRate, timeBaseNoise, report),
          },
  };
}

/** The way back. */
export function counterToJson(counter: CounterParameters) {
  const { timebase } = counter;
  return {
    input: counter.input,
    technique: counter.technique,
    gate_s: counter.gate,
    ...(counter.gateMax !== null && { gate_max_s: counter.gateMax }),
    dead_time_s: counter.deadTime,
    holdoff_s: counter.holdoff,
    resolution_s: counter.resolution,
    trigger_noise_s: counter.triggerNoise,
    missed_edge_probability: counter.missedEdgeProbability,
    extra_edge_probability: counter.extraEdgeProbability,
    ...(counter.displayDigits !== null && { display_digits: counter.displayDigits }),
    timebase:
      timebase === "reference"
        ? timebase
        : {
            fractional_offset: timebase.fractionalOffset,
            uncertainty: timebase.uncertainty,
            noise: noiseToJson(timebase.noise),
          },
  };
}
