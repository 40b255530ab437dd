import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import {
  type Complaint,
  type ParsedScenario,
  parseScenario,
  ScenarioError,
} from "../../src/scenario/index.ts";

const folder = join(import.meta.dirname, "..", "..", "scenarios");

/** Text of a demo. */
export const demo = (name: string): string => readFileSync(join(folder, `${name}.yaml`), "utf8");

/** Names of all demos. */
export const demos = readdirSync(folder)
  .filter((name) => name.endsWith(".yaml"))
  .map((name) => name.slice(0, -".yaml".length));

/** A scenario with the whole chain, without comments, to be spoilt by tests. */
export const sample = `title: sample
seed: a
length_s: 20000
clock: { tick_hz: 1, bounce: { count: 2, within_s: 0.001 } }
environment: { mean_c: 20 }
reference:
  nominal_hz: 10e6
  noise: { white_fm_adev_1s: 2e-11 }
synthesizer:
  output_hz: 5
  setting_step_hz: 1e-7
  loop: { natural_hz: 1.5, damping: 0.8 }
  spurs: [{ frequency_hz: 50, time_amplitude_s: 1e-6 }]
drive: { carrier_hz: 1370, burst_s: 0.06, amplitude_v: 12 }
receiver:
  time_constant_s: 0.01
  threshold_v: 4.5
  noise_v: 0.1
  steps_per_tick: 5
  fallback: { after_s: 1.5 }
counter: { gate_s: 50, holdoff_s: 0.01, timebase: { fractional_offset: -3e-9 } }
disturbances:
  - { kind: drive_off, at_s: 100, for_s: 10 }
  - { kind: missed_step, at_s: 200 }
`;

/** The sample with one piece of it replaced. Throws where the piece is not in it. */
export function spoilt(piece: string, by: string): string {
  if (!sample.includes(piece)) throw new Error(`not in the sample: ${piece}`);
  return sample.replace(piece, () => by);
}

/** `line:column`, from 1, of an offset in a text. */
export function placeAt(text: string, offset: number): string {
  const before = text.slice(0, offset).split("\n");
  return `${before.length}:${before.at(-1)!.length + 1}`;
}

/** The complaints about a text; fails where there are none or the error is of another kind. */
export function complaintsAbout(text: string, sets: readonly string[] = []): readonly Complaint[] {
  try {
    parseScenario(text, "x.yaml", sets);
  } catch (error) {
    if (error instanceof ScenarioError) return error.complaints;
    throw error;
  }
  throw new Error("the scenario was accepted");
}

/** What the sample resolves to with overrides. */
export const sampleWith = (...sets: string[]): ParsedScenario =>
  parseScenario(sample, "x.yaml", sets);

/** Codes and paths of the warnings that the sample gives with overrides. */
export const warningsWith = (...sets: string[]): string[] =>
  sampleWith(...sets).warnings.map(({ code, path }) => `${code} ${path}`);
