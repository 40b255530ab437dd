import { nominalPeriod } from "../../chain/index.ts";
import type { Scenario } from "../../scenario/index.ts";
import { givenQuantityText } from "../../view/chart/index.ts";
import { gateUnit } from "./lesson-scenario.ts";

/**
 * What a gate of so many units is called.
 *
 * @param scenario - the scenario
 * @param units - length; integer >= 1, in `gateUnit`
 * @returns such as `one period`, `10 periods`, `20 ms`
 */
export function gateWords(scenario: Scenario, units: number): string {
  const unit = gateUnit(scenario);
  if (unit > nominalPeriod(scenario)) return givenQuantityText(units * unit, "s");
  return units === 1 ? "one period" : `${units} periods`;
}

/** What the counter looks at, with its article. */
export function inputWords(scenario: Scenario): string {
  const { input } = scenario.counter;
  return input === "clock"
    ? "the clock"
    : input === "reference"
      ? "the reference"
      : "the synthesizer";
}

/**
 * Digits after the point that a counter can give a mean period.
 *
 * @param resolution - of a time stamp; s, >= 0
 * @param cycles - that the reading holds; >= 1
 * @returns 3 to 15; 12 where the resolution is 0
 */
export function periodDecimals(resolution: number, cycles: number): number {
  if (resolution === 0) return 12;
  return Math.min(15, Math.max(3, Math.ceil(-Math.log10(resolution / cycles) - 1e-9)));
}
