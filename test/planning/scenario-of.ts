import type { Scenario } from "../../src/scenario/index.ts";
import { parseScenario } from "../../src/scenario/index.ts";

const observatoryText = `
title: Observatory sidereal clock on a rubidium line
seed: observatory-1
length_s: 20000
clock: { tick_hz: 1.00273790935 }
reference:
  nominal_hz: 10e6
  fractional_offset: 2e-11
  aging_per_day: 1.5e-12
  noise: { white_pm_rms_s: 1e-11, white_fm_adev_1s: 2e-11, flicker_fm_adev: 2e-13, random_walk_fm_adev_1s: 1e-16 }
synthesizer:
  output_hz: 5.01368954675
  setting_step_hz: 1e-7
  loop: { natural_hz: 1.5, damping: 0.8 }
  noise: { white_fm_adev_1s: 3e-6, flicker_fm_adev: 5e-7 }
drive:    { carrier_hz: 1370, carrier_lock: free, burst_s: 0.06, amplitude_v: 12, amplitude_noise: 0.02 }
receiver: { rectifier: full, time_constant_s: 0.010, threshold_v: 4.5, noise_v: 0.15, steps_per_tick: 5 }
counter:  { input: clock, technique: reciprocal, gate_s: 50, gate_max_s: 1000, dead_time_s: 0, resolution_s: 1e-7,
            trigger_noise_s: 5e-6, timebase: { fractional_offset: 3e-9, uncertainty: 1e-8 } }
`;

const schoolText = `
title: A clock with nothing but white jitter
length_s: 3600
clock: { tick_hz: 1 }
reference: { nominal_hz: 1, noise: { white_pm_rms_s: 1e-3 } }
counter: { input: clock, technique: reciprocal, gate_s: single, timebase: { fractional_offset: 0 } }
`;

/** Reads a scenario and changes keys of its resolved form. */
function scenarioOf(text: string, change: (scenario: Mutable<Scenario>) => void): Scenario {
  const copy = structuredClone(parseScenario(text, "test.yaml").scenario) as Mutable<Scenario>;
  change(copy);
  return copy as Scenario;
}

type Mutable<T> = { -readonly [K in keyof T]: Mutable<T[K]> };

/** The observatory chain: reference, loop, free tone, detector, counter with a 50 s gate. */
export const observatory = (change: (scenario: Mutable<Scenario>) => void = () => {}): Scenario =>
  scenarioOf(observatoryText, change);

/** The observatory chain measured with a perfect time base. */
export const perfectlyTimed = (): Scenario =>
  observatory((scenario) => {
    if (scenario.counter.timebase === "reference") return;
    scenario.counter.timebase.fractionalOffset = 0;
    scenario.counter.timebase.uncertainty = 0;
  });

/** Ticks of a second with 1 ms of white jitter, single periods, nothing else. */
export const school = (change: (scenario: Mutable<Scenario>) => void = () => {}): Scenario =>
  scenarioOf(schoolText, change);

/** The observatory with a reference that is off by an offset, and by two kelvin times its coefficient. */
export const twoKelvinWarm = (fractionalOffset: number, linearPerK: number) =>
  observatory((changed) => {
    changed.reference.agingPerDay = 0;
    changed.reference.fractionalOffset = fractionalOffset;
    changed.reference.temperature = { linearPerK, parabolicPerK2: 0, turnoverC: 18 };
    changed.environment = { meanC: 20, dailyAmplitudeK: 0, dailyPeak: 0, rampKPerDay: 0 };
  });
