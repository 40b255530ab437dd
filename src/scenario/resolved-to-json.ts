import type { NoiseLevels } from "../noise/noise-levels.ts";
import type { Disturbance, Scenario } from "./scenario.ts";

function noiseToJson(noise: NoiseLevels) {
  return {
    white_pm_rms_s: noise.whitePmRms,
    h: { h1: noise.h1, h0: noise.h0, h_minus_1: noise.hMinus1, h_minus_2: noise.hMinus2 },
    bandwidth_hz: noise.bandwidthHz,
    flicker_longest_s: noise.flickerLongest,
  };
}

function referenceToJson({ temperature, noise, ...reference }: Scenario["reference"]) {
  return {
    nominal_hz: reference.nominalHz,
    fractional_offset: reference.fractionalOffset,
    aging_per_day: reference.agingPerDay,
    temperature: {
      linear_per_k: temperature.linearPerK,
      parabolic_per_k2: temperature.parabolicPerK2,
      turnover_c: temperature.turnoverC,
    },
    noise: noiseToJson(noise),
  };
}

function synthesizerToJson({ loop, noise, ...rest }: NonNullable<Scenario["synthesizer"]>) {
  return {
    output_hz: rest.outputHz,
    setting_step_hz: rest.settingStepHz,
    loop: {
      natural_hz: loop.naturalHz,
      damping: loop.damping,
      comparison_hz: loop.comparisonHz,
    },
    noise: noiseToJson(noise),
    phase_detector_white_s_per_sqrt_hz: rest.phaseDetectorWhite,
    spurs: rest.spurs.map((spur) => ({
      frequency_hz: spur.frequencyHz,
      time_amplitude_s: spur.timeAmplitude,
    })),
  };
}

function driveToJson(drive: NonNullable<Scenario["drive"]>) {
  return {
    carrier_hz: drive.carrierHz,
    carrier_fractional_offset: drive.carrierFractionalOffset,
    carrier_lock: drive.carrierLock,
    burst_s: drive.burst,
    amplitude_v: drive.amplitudeV,
    amplitude_noise: drive.amplitudeNoise,
    drop_probability: drive.dropProbability,
  };
}

function receiverToJson(receiver: NonNullable<Scenario["receiver"]>, clock: Scenario["clock"]) {
  const { fallback } = clock;
  return {
    rectifier: receiver.rectifier,
    time_constant_s: receiver.timeConstant,
    leak: receiver.leak,
    threshold_v: receiver.thresholdV,
    noise_v: receiver.noiseV,
    steps_per_tick: clock.stepsPerTick,
    extra_step_rate_hz: receiver.extraStepRateHz,
    ...(fallback && {
      fallback: {
        after_s: fallback.after,
        fractional_offset: fallback.fractionalOffset,
        noise: noiseToJson(fallback.noise),
      },
    }),
  };
}

function counterToJson(counter: Scenario["counter"]) {
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

function disturbanceToJson(disturbance: Disturbance) {
  const { kind, at } = disturbance;
  const json = { kind, at_s: at };
  if (!("for" in disturbance)) return json;
  const lasting = { ...json, for_s: disturbance.for };
  switch (disturbance.kind) {
    case "drive_rate":
      return { ...lasting, output_hz: disturbance.outputHz };
    case "amplitude":
      return { ...lasting, factor: disturbance.factor };
    default:
      return lasting;
  }
}

/**
 * The way back: a resolved scenario as what could stand in a file, every default written out.
 *
 * Noise comes out as levels h_α, white PM as rms time error, so that no number is converted twice.
 *
 * @param scenario - a resolved scenario
 * @returns a plain object in the keys of scenario files; parsed again it gives the same scenario, bit
 * for bit
 */
export function resolvedToJson(scenario: Scenario): Record<string, unknown> {
  const { environment, clock, synthesizer, drive, receiver } = scenario;
  return {
    title: scenario.title,
    ...(scenario.seed !== null && { seed: scenario.seed }),
    length_s: scenario.length,
    ...(scenario.recording !== null && { recording: scenario.recording }),
    clock: {
      tick_hz: clock.tickHz,
      ...(clock.bounce && {
        bounce: { count: clock.bounce.count, within_s: clock.bounce.within },
      }),
    },
    environment: {
      mean_c: environment.meanC,
      daily_amplitude_k: environment.dailyAmplitudeK,
      daily_peak_s: environment.dailyPeak,
      ramp_k_per_day: environment.rampKPerDay,
    },
    reference: referenceToJson(scenario.reference),
    ...(synthesizer && { synthesizer: synthesizerToJson(synthesizer) }),
    ...(drive && { drive: driveToJson(drive) }),
    ...(receiver && { receiver: receiverToJson(receiver, clock) }),
    counter: counterToJson(scenario.counter),
    disturbances: scenario.disturbances.map(disturbanceToJson),
  };
}
