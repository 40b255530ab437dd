import type { Scenario } from "./scenario.ts";
import type { SenseReport } from "./sense-report.ts";

/** A steady rate above this is no setting error of a clock but, most likely, of a unit. */
const largeRate = 1e-3;
/** Above this the rate no longer varies slowly, as the model of its course takes for granted. */
const largestRate = 0.1;
const secondsPerDay = 86400;

const short = (value: number) => String(Number(value.toPrecision(3)));

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
  senseOfRate(
    ageing,
    ["reference", "aging_per_day"],
    `adds up to ${short(ageing)} over the run; it is a fraction a day, not parts per million`,
    report,
  );
  const off =
    Math.abs(environment.meanC - temperature.turnoverC) +
    environment.dailyAmplitudeK +
    Math.abs(environment.rampKPerDay) * days;
  const byTemperature =
    Math.abs(temperature.linearPerK) * off + Math.abs(temperature.parabolicPerK2) * off * off;
  senseOfRate(
    byTemperature,
    ["reference", "temperature"],
    `makes a rate of up to ${short(byTemperature)}; coefficients are fractions, not parts per million`,
    report,
  );
}

function senseOfRate(
  size: number,
  path: readonly string[],
  message: string,
  report: SenseReport,
): void {
  if (size > largestRate) report.fault(path, message);
  else if (size > largeRate) report.warn("large_rate", path, message);
}
