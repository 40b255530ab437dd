import type { CounterParameters } from "../counter/counter-parameters.ts";
import { deepFreeze } from "./deep-freeze.ts";
import { resolveNoise } from "./resolve-noise.ts";
import type { Disturbance, Scenario } from "./scenario.ts";
import type { ScenarioDocument } from "./schema.ts";
import { timeBaseEdgeRate } from "./structure.ts";

type Section<Key extends keyof ScenarioDocument> = NonNullable<ScenarioDocument[Key]>;

function resolveReference({ nominal_hz, temperature, noise, ...rest }: Section<"reference">) {
  return {
    nominalHz: nominal_hz,
    fractionalOffset: rest.fractional_offset,
    agingPerDay: rest.aging_per_day,
    temperature: {
      linearPerK: temperature.linear_per_k,
      parabolicPerK2: temperature.parabolic_per_k2,
      turnoverC: temperature.turnover_c,
    },
    noise: resolveNoise(noise, nominal_hz),
  };
}

function resolveSynthesizer({ output_hz, loop, noise, spurs, ...rest }: Section<"synthesizer">) {
  return {
    outputHz: output_hz,
    settingStepHz: rest.setting_step_hz,
    loop: {
      naturalHz: loop.natural_hz,
      damping: loop.damping,
      comparisonHz: loop.comparison_hz,
    },
    noise: resolveNoise(noise, output_hz),
    phaseDetectorWhite: rest.phase_detector_white_s_per_sqrt_hz,
    spurs: spurs.map((spur) => ({
      frequencyHz: spur.frequency_hz,
      timeAmplitude: spur.time_amplitude_s,
    })),
  };
}

function resolveDrive(drive: Section<"drive">) {
  return {
    carrierHz: drive.carrier_hz,
    carrierFractionalOffset: drive.carrier_fractional_offset,
    carrierLock: drive.carrier_lock,
    burst: drive.burst_s,
    amplitudeV: drive.amplitude_v,
    amplitudeNoise: drive.amplitude_noise,
    dropProbability: drive.drop_probability,
  };
}

function resolveReceiver(receiver: Section<"receiver">) {
  return {
    rectifier: receiver.rectifier,
    timeConstant: receiver.time_constant_s,
    leak: receiver.leak,
    thresholdV: receiver.threshold_v,
    noiseV: receiver.noise_v,
    extraStepRateHz: receiver.extra_step_rate_hz,
  };
}

function resolveClock({ clock, receiver }: ScenarioDocument) {
  const { bounce } = clock;
  const fallback = receiver?.fallback;
  return {
    tickHz: clock.tick_hz,
    stepsPerTick: receiver?.steps_per_tick ?? 1,
    bounce: bounce === undefined ? null : { count: bounce.count, within: bounce.within_s },
    fallback:
      fallback === undefined
        ? null
        : {
            after: fallback.after_s,
            fractionalOffset: fallback.fractional_offset,
            noise: resolveNoise(fallback.noise, clock.tick_hz),
          },
  };
}

function resolveCounter(counter: Section<"counter">): CounterParameters {
  const { timebase } = counter;
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
            noise: resolveNoise(timebase.noise, timeBaseEdgeRate),
          },
  };
}

function resolveDisturbance(disturbance: ScenarioDocument["disturbances"][number]): Disturbance {
  switch (disturbance.kind) {
    case "drive_off":
      return { kind: disturbance.kind, at: disturbance.at_s, for: disturbance.for_s };
    case "drive_rate": {
      const { kind, at_s, for_s, output_hz } = disturbance;
      return { kind, at: at_s, for: for_s, outputHz: output_hz };
    }
    case "amplitude": {
      const { kind, at_s, for_s, factor } = disturbance;
      return { kind, at: at_s, for: for_s, factor };
    }
    default:
      return { kind: disturbance.kind, at: disturbance.at_s };
  }
}

/**
 * Fills in what a scenario leaves open and brings it into the form the rest of the program uses.
 *
 * Defaults that depend on other keys: a noise band ends at half the edge rate of its stage (own time
 * base of a counter: 5 MHz, as of a 10 MHz one); a time base is known within its own offset; a
 * time-interval counter starts every second. Disturbances come out in order of time.
 *
 * @param document - a scenario without structural faults (`structureFaults`)
 * @returns the scenario in SI units, frozen through and through
 */
export function resolveScenario(document: ScenarioDocument): Scenario {
  const { seed, environment, synthesizer, drive, receiver } = document;
  return deepFreeze({
    title: document.title,
    seed: seed === undefined ? null : String(seed),
    length: document.length_s,
    recording: document.recording ?? null,
    environment: {
      meanC: environment.mean_c,
      dailyAmplitudeK: environment.daily_amplitude_k,
      dailyPeak: environment.daily_peak_s,
      rampKPerDay: environment.ramp_k_per_day,
    },
    reference: resolveReference(document.reference),
    synthesizer: synthesizer === undefined ? null : resolveSynthesizer(synthesizer),
    drive: drive === undefined ? null : resolveDrive(drive),
    receiver: receiver === undefined ? null : resolveReceiver(receiver),
    clock: resolveClock(document),
    counter: resolveCounter(document.counter),
    disturbances: document.disturbances.map(resolveDisturbance).sort((a, b) => a.at - b.at),
  });
}
