/**
 * The rate a synthesizer makes when a rate is asked for: the nearest multiple of its setting step.
 *
 *   f = step·round(requested/step)
 *
 * @param requestedHz - rate asked for; Hz, > 0
 * @param settingStepHz - setting step; Hz, > 0, or 0 where any rate can be set
 * @returns rate set; Hz
 * @throws RangeError if requestedHz is not above 0, the step below 0, or the nearest multiple is 0
 *
 * Exact case: 5.3 in steps of 0.5 gives 5.5.
 */
export function setFrequency(requestedHz: number, settingStepHz: number): number {
  if (!(requestedHz > 0 && requestedHz < Infinity)) {
    throw new RangeError(`setFrequency: requestedHz must be > 0 Hz, got ${requestedHz}`);
  }
  if (!(settingStepHz >= 0 && settingStepHz < Infinity)) {
    throw new RangeError(`setFrequency: settingStepHz must be >= 0 Hz, got ${settingStepHz}`);
  }
  if (settingStepHz === 0) {
    return requestedHz;
  }
  const steps = Math.floor(requestedHz / settingStepHz + 0.5);
  if (steps === 0) {
    throw new RangeError(
      `setFrequency: requestedHz must be at least half the setting step ${settingStepHz} Hz, got ${requestedHz}`,
    );
  }
  // A step of 1e-7 has no exact double; its reciprocal is the integer that was meant.
  const perHz = Math.floor(1 / settingStepHz + 0.5);
  const isPart = perHz > 1 && Math.abs(perHz * settingStepHz - 1) < 1e-15;
  return isPart ? steps / perHz : steps * settingStepHz;
}
