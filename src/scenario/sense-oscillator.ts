import type { Scenario } from "./scenario.ts";
import type { SenseReport } from "./sense-report.ts";

/** A steady rate above this is no setting error of a clock but, most likely, of a unit. */
const largeRate = 1e-3;
const secondsPerDay = 86400;

/**
 * Checks the reference: is its rate, ageing and temperature included, that of an oscillator?
 *
 * @param scenario - a resolved scenario
 * @param report - where findings go
 */
export function senseOfOscillator(scenario: Scenario, report: SenseReport): void {
  const { reference, environment, length } = scenario;
  const { temperature } = reference;
  const days = length / secondsPerDay;
  const ageing = Math.abs(reference.agingPerDay) * days;
  if (ageing > largeRate) {
    report.warn(
      "large_rate",
      ["reference", "aging_per_day"],
      `adds up to ${Number(ageing.toPrecision(3))} over the run; it is a fraction a day, not parts per million`,
    );
  }
  const off =
    Math.abs(environment.meanC - temperature.turnoverC) +
    environment.dailyAmplitudeK +
    Math.abs(environment.rampKPerDay) * days;
  const byTemperature =
    Math.abs(temperature.linearPerK) * off + Math.abs(temperature.parabolicPerK2) * off * off;
  if (byTemperature > largeRate) {
    report.warn(
      "large_rate",
      ["reference", "temperature"],
      `makes a rate of up to ${Number(byTemperature.toPrecision(3))}; coefficients are fractions, not parts per million`,
    );
  }
}
