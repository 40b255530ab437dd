import type { Judgement } from "../../judgement/index.ts";
import { estimateToJson } from "./estimate-json.ts";
import { finiteOrNull } from "./finite-or-null.ts";
import { agreementToJson, headlineToJson, levelsToJson } from "./headline-json.ts";

const orNull = (value: number | null) => (value === null ? null : finiteOrNull(value));

/** What `judge` found, as other programs read it. */
export function judgeToJson(judgement: Judgement) {
  return {
    schema_version: 1,
    readings: judgement.readings,
    missing: judgement.missing,
    gate_s: finiteOrNull(judgement.gate),
    back_to_back: judgement.backToBack,
    dead_time_s: orNull(judgement.deadTime),
    headline: headlineToJson(judgement.headline),
    levels: levelsToJson(judgement.levels),
    agreement: agreementToJson(judgement.agreement),
    estimates: judgement.estimates.map(estimateToJson),
    estimates_with_strays: judgement.estimatesWithStrays?.map(estimateToJson) ?? null,
    stray_effect: judgement.strayEffect,
    single_reading: { standard_deviation: finiteOrNull(judgement.singleReading.standardDeviation) },
    outliers: judgement.outliers.map(({ reading, kind, cycles, repaired, timeError }) => ({
      reading,
      kind,
      // Of time errors without a nominal period no one knows how many cycles a step is.
      cycles: finiteOrNull(cycles),
      repaired,
      ...(timeError === undefined ? {} : { time_error_s: timeError }),
    })),
    lost_s: judgement.lost,
    slip_note: judgement.slipNote,
    noise_found: {
      probability: judgement.noiseFound.probability,
      drift_probability: null,
      source: "",
      edge_jitter_s: finiteOrNull(judgement.noiseFound.edgeJitter),
      reading_deviation: finiteOrNull(judgement.noiseFound.readingDeviation),
      source_deviation: finiteOrNull(judgement.noiseFound.sourceDeviation),
      interval_s: finiteOrNull(judgement.noiseFound.interval),
      // Not looked for: a wave in the time error counts as noise.
      beats: null,
    },
    noise: judgement.noise.map(({ tau, type }) => ({ tau_s: tau, type })),
    stability: judgement.stability.map((row) => ({
      tau_s: row.tauS,
      samples: row.samples,
      degrees_of_freedom: orNull(row.degreesOfFreedom),
      noise_type: row.noiseType,
      allan_deviation: finiteOrNull(row.allanDeviation),
      allan_low: orNull(row.allanLow),
      allan_high: orNull(row.allanHigh),
      modified_allan_deviation: orNull(row.modifiedAllanDeviation),
      time_deviation_s: orNull(row.timeDeviation),
      hadamard_deviation: orNull(row.hadamardDeviation),
      mtie_s: orNull(row.mtie),
      dead_time_bias: row.deadTimeBias,
    })),
    stability_note: judgement.stabilityWhy,
    longer:
      judgement.longer?.map((answer) => ({
        method: answer.method,
        of: answer.of,
        reachable: answer.reachable,
        further_s: finiteOrNull(answer.further),
        half_width_now: finiteOrNull(answer.now),
        best_half_width: finiteOrNull(answer.best),
        limited_by: answer.limitedBy,
      })) ?? null,
    ahead:
      judgement.ahead?.map((answer) => ({
        method: answer.method,
        after_s: answer.after,
        gain_s: finiteOrNull(answer.gain),
        interval_95_s: answer.interval95.every(Number.isFinite) ? answer.interval95 : null,
        from_drift_s: null,
      })) ?? null,
    warnings: judgement.warnings,
  };
}
