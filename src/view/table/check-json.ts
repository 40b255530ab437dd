import type { ChainCheck } from "../../planning/index.ts";
import { finiteOrNull } from "./finite-or-null.ts";

const secondsPerDay = 86400;

/** What `check` found, as other programs read it. */
export function checkToJson(check: ChainCheck) {
  const { setting, loop, detection, margin } = check;
  return {
    schema_version: 1,
    tick_period_s: check.tickPeriod,
    bursts_per_tick: check.burstsPerTick,
    recording: check.recording,
    setting: setting && {
      requested_hz: setting.requestedHz,
      set_hz: setting.setHz,
      fractional_error: setting.fractionalError,
      seconds_per_day: setting.fractionalError * secondsPerDay,
    },
    loop: loop && {
      natural_hz: loop.naturalHz,
      damping: loop.damping,
      noise_bandwidth_hz: loop.noiseBandwidthHz,
      rms_jitter_s: loop.jitter.total,
      rms_jitter_by_cause_s: {
        oscillator: loop.jitter.oscillator,
        phase_detector: loop.jitter.phaseDetector,
        detected_phase: loop.jitter.detectedPhase,
        reference_frequency: loop.jitter.referenceFrequency,
        spurs: loop.jitter.spurs,
      },
    },
    detection: detection && {
      mean_delay_s: finiteOrNull(detection.meanDelay),
      rms_delay_s: finiteOrNull(detection.rmsDelay),
      miss_probability: detection.missProbability,
      blocked_probability: detection.blockedProbability,
    },
    margin: margin && {
      amplitude_ratio: margin.amplitudeRatio,
      threshold_ratio: margin.thresholdRatio,
    },
    beats: check.beats.map((beat) => ({
      p: beat.p,
      q: beat.q,
      frequency_hz: beat.frequencyHz,
      period_s: finiteOrNull(beat.period),
      delay_amplitude_s: beat.delayAmplitude,
    })),
    reading: { rms: check.readingRms, digits: check.digits },
    time_resolution_s: check.timeResolution,
    left_out: check.leftOut,
    warnings: check.warnings,
  };
}
