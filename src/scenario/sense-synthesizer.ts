import { loopNoiseBandwidth, setFrequency } from "../stages/synthesizer/index.ts";
import type { Scenario } from "./scenario.ts";
import type { SenseReport } from "./sense-report.ts";

const secondsPerDay = 86400;
/** Relative difference that is rounding of the numbers in a file, not intent. */
const rounding = 1e-12;
/** The loop is modelled as continuous: it must compare at so many times its noise bandwidth. */
const comparisonsPerBandwidth = 20;

/**
 * Checks the synthesizer: its setting against the rate of the clock, its loop against the rate at
 * which it compares.
 *
 * @param scenario - a resolved scenario
 * @param report - where findings go
 */
export function senseOfSynthesizer(scenario: Scenario, report: SenseReport): void {
  const { synthesizer, receiver, clock } = scenario;
  if (synthesizer === null) return;
  const { outputHz, settingStepHz: step, loop } = synthesizer;
  if (outputHz < step / 2) {
    report.fault(
      ["synthesizer", "setting_step_hz"],
      `is so coarse that the nearest setting to ${outputHz} Hz is 0`,
      "make it finer, or 0 for any rate",
    );
    return;
  }
  const setHz = setFrequency(outputHz, step);
  const wantedHz = clock.stepsPerTick * clock.tickHz;
  const isOff = Math.abs(outputHz - wantedHz) > Math.max(step, wantedHz * rounding);
  if (receiver !== null && isOff) {
    const perDay = (setHz / wantedHz - 1) * secondsPerDay;
    const amount = Number(Math.abs(perDay).toPrecision(3));
    report.warn(
      "setting_mismatch",
      ["synthesizer", "output_hz"],
      `is not ${clock.stepsPerTick} × tick_hz = ${Number(wantedHz.toPrecision(13))} Hz: the clock will ${perDay > 0 ? "gain" : "lose"} ${amount} s a day`,
    );
  }
  const bandwidth = loopNoiseBandwidth(loop.damping, 2 * Math.PI * loop.naturalHz);
  const least = comparisonsPerBandwidth * bandwidth;
  if (loop.comparisonHz < least) {
    report.warn(
      "slow_comparison",
      ["synthesizer", "loop", "comparison_hz"],
      `is below ${comparisonsPerBandwidth} times the noise bandwidth of the loop, ${Number(least.toPrecision(3))} Hz: the continuous model of the loop is then only rough`,
    );
  }
}
