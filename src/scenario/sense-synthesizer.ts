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
 *   set = round(output/step)·step;  B_L = (ω/2)·(ζ + 1/(4ζ))
 *
 * @param scenario - a resolved scenario
 * @param report - where findings go
 *
 * Source: Gardner, Phaselock Techniques (noise bandwidth of the type-2 second-order loop).
 */
export function senseOfSynthesizer({ synthesizer, clock }: Scenario, report: SenseReport): void {
  if (synthesizer === null) return;
  const { outputHz, settingStepHz: step, loop } = synthesizer;
  const setHz = step === 0 ? outputHz : Math.round(outputHz / step) * step;
  if (setHz === 0) {
    report.fault(
      ["synthesizer", "setting_step_hz"],
      `is so coarse that the nearest setting to ${outputHz} Hz is 0`,
    );
    return;
  }
  const wantedHz = clock.stepsPerTick * clock.tickHz;
  if (Math.abs(outputHz - wantedHz) > Math.max(step, wantedHz * rounding)) {
    const perDay = (setHz / wantedHz - 1) * secondsPerDay;
    const amount = Number(Math.abs(perDay).toPrecision(3));
    report.warn(
      "setting_mismatch",
      ["synthesizer", "output_hz"],
      `is not ${clock.stepsPerTick} × tick_hz = ${Number(wantedHz.toPrecision(13))} Hz: the clock will ${perDay > 0 ? "gain" : "lose"} ${amount} s a day`,
    );
  }
  const omega = 2 * Math.PI * loop.naturalHz;
  const bandwidth = (omega / 2) * (loop.damping + 1 / (4 * loop.damping));
  const least = comparisonsPerBandwidth * bandwidth;
  if (loop.comparisonHz < least) {
    report.warn(
      "slow_comparison",
      ["synthesizer", "loop", "comparison_hz"],
      `is below ${comparisonsPerBandwidth} times the noise bandwidth of the loop, ${Number(least.toPrecision(3))} Hz: the continuous model of the loop is then only rough`,
    );
  }
}
