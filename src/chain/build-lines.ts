import { RandomStream } from "../numeric/index.ts";
import type { Scenario } from "../scenario/index.ts";
import { Oscillator } from "../stages/oscillator/index.ts";
import { finestScale, Synthesizer } from "../stages/synthesizer/index.ts";
import { ReferenceLine, SynthesizerLine } from "./edge-line.ts";
import { allDevices, type SpeedDevices } from "./speed-devices.ts";

/** A reference of its own for each use: every use draws the same streams, whatever the others look at. */
function buildReference(
  scenario: Scenario,
  finestStep: number,
  seed: string,
  devices: SpeedDevices,
): Oscillator {
  return new Oscillator(
    scenario.reference,
    scenario.environment,
    finestStep,
    new RandomStream(seed, "reference"),
    new RandomStream(seed, "reference/edges"),
    devices.strides,
  );
}

/** A reference and the line of edges that was made from it. */
export interface BuiltLine<Line> {
  readonly reference: Oscillator;
  readonly line: Line;
}

/**
 * Edges of the reference, divided down.
 *
 * @param hz - nominal rate of the edges; Hz
 * @param length - length of the run; s
 * @param devices - which of the devices for speed are used
 */
export function buildReferenceLine(
  scenario: Scenario,
  hz: number,
  seed: string,
  length: number,
  devices: SpeedDevices = allDevices,
): BuiltLine<ReferenceLine> {
  const reference = buildReference(scenario, 1 / hz, seed, devices);
  return { reference, line: new ReferenceLine(reference, hz, length) };
}

/**
 * Edges of the synthesizer on a reference.
 *
 * @param nominalHz - the rate that would be right: that of the clock's steps, or the rate asked for
 * @param length - length of the run; s
 * @param devices - which of the devices for speed are used
 * @throws RangeError if the scenario has no synthesizer
 */
export function buildSynthesizerLine(
  scenario: Scenario,
  nominalHz: number,
  seed: string,
  length: number,
  devices: SpeedDevices = allDevices,
): BuiltLine<SynthesizerLine> & { readonly synthesizer: Synthesizer } {
  const parameters = scenario.synthesizer;
  if (parameters === null) {
    throw new RangeError("buildSynthesizerLine: the scenario must have a synthesizer");
  }
  const rates = scenario.disturbances.map((d) => (d.kind === "drive_rate" ? d.outputHz : 0));
  const finestStep = 0.999 / Math.max(parameters.outputHz, ...rates);
  const reference = buildReference(
    scenario,
    finestScale(finestStep, parameters.loop),
    seed,
    devices,
  );
  const synthesizer = new Synthesizer(
    parameters,
    reference.noise,
    finestStep,
    new RandomStream(seed, "synthesizer"),
    new RandomStream(seed, "synthesizer/edges"),
    devices.leftOut,
  );
  const line = new SynthesizerLine(reference, synthesizer, nominalHz, length);
  return { reference, synthesizer, line };
}
