import { setFrequency } from "./set-frequency.ts";
import type { SynthesizerParameters } from "./synthesizer-parameters.ts";

/** What a synthesizer is asked for, and what it makes of it. */
export interface Setting {
  readonly requestedHz: number;
  readonly setHz: number;
  /** Set rate over the rate that would be right, less one; dimensionless. */
  readonly fractionalError: number;
}

/**
 * How a synthesizer is set.
 *
 * @param synthesizer - the synthesizer
 * @param neededHz - the rate that would be right; Hz, > 0
 * @throws RangeError as `setFrequency`
 */
export function settingOf(
  { outputHz, settingStepHz }: SynthesizerParameters,
  neededHz: number = outputHz,
): Setting {
  const setHz = setFrequency(outputHz, settingStepHz);
  return { requestedHz: outputHz, setHz, fractionalError: (setHz - neededHz) / neededHz };
}
