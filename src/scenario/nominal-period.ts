import type { Scenario } from "./scenario.ts";

/**
 * Nominal period of what the counter watches: the period that a reading is compared with.
 *
 * @returns s; of the tick, of the rate asked of the synthesizer, or of the reference
 */
export function nominalPeriod(scenario: Scenario): number {
  switch (scenario.counter.input) {
    case "clock":
      return 1 / scenario.clock.tickHz;
    case "synthesizer":
      return 1 / (scenario.synthesizer?.outputHz ?? scenario.reference.nominalHz);
    case "reference":
      return 1 / scenario.reference.nominalHz;
  }
}
