import { median } from "../numeric/index.ts";
import type { Readings } from "../readings/index.ts";
import type { NoiseFit } from "./fit-noise.ts";

/**
 * A scenario whose readings have the noise found: a clock on its own oscillator and a counter on the reference, in
 * the keys of a scenario file. Levels at their posterior median; noise whose median is none is left out.
 *
 * @param fit - from fitNoise
 * @param readings - the record it was fitted to
 * @param title - title of the scenario
 * @returns a plain object, SI numbers, to be written as YAML or JSON
 *
 * Exact case: readings of time errors give a counter of the technique time_interval.
 */
export function fittedScenario(fit: NoiseFit, readings: Readings, title: string) {
  const tick = 1 / (readings.nominalPeriod ?? 1);
  const level = (key: string, value: number | undefined) =>
    value !== undefined && value > 0 ? { [key]: value } : {};
  const length = lengthOf(readings);
  return {
    title,
    length_s: length,
    clock: { tick_hz: tick },
    reference: {
      nominal_hz: tick,
      fractional_offset: fit.fractionalOffset.value,
      noise: {
        ...level("white_fm_adev_1s", fit.whiteFm?.value),
        ...level("flicker_fm_adev", fit.flickerFm.value),
        ...level("random_walk_fm_adev_1s", fit.randomWalkFm.value),
      },
    },
    counter: counterOf(fit, readings),
  };
}

function counterOf(fit: NoiseFit, readings: Readings) {
  const common = { input: "clock", timebase: { fractional_offset: 0 } };
  if (readings.kind === "time_error") {
    const { spacing } = readings;
    const jitter = fit.edgeJitter?.value ?? 0;
    return { ...common, technique: "time_interval", gate_s: spacing, trigger_noise_s: jitter };
  }
  const { nominalPeriod, backToBack, deadTime } = readings;
  // Of the usual reading: one in which many edges were missed makes no gate longer.
  const cycles = median(readings.cycles);
  const gate = cycles * nominalPeriod;
  // With dead time each reading has two edges of its own: √2 of their jitter over the gate.
  const jitter = fit.edgeJitter?.value ?? ((fit.readingNoise?.value ?? 0) * gate) / Math.SQRT2;
  return {
    ...common,
    technique: "reciprocal",
    // A gate ends at the first edge after it has lasted: half a period less gives the cycles found.
    gate_s: cycles < 1.5 ? "single" : gate - nominalPeriod / 2,
    dead_time_s: backToBack ? 0 : (deadTime ?? 0),
    trigger_noise_s: jitter,
  };
}

function meanCycles(cycles: Float64Array): number {
  let sum = 0;
  let known = 0;
  for (let i = 0; i < cycles.length; i++) {
    if (Number.isNaN(cycles[i]!)) continue;
    sum += cycles[i]!;
    known++;
  }
  return sum / known;
}

function lengthOf(readings: Readings): number {
  if (readings.kind === "time_error") return readings.timeError.length * readings.spacing;
  const { period, cycles, nominalPeriod, backToBack, deadTime } = readings;
  const gate = meanCycles(cycles) * nominalPeriod;
  return period.length * (gate + (backToBack ? 0 : (deadTime ?? 0)));
}
