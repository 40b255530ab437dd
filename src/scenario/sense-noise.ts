import type { NoiseLevels } from "../noise/index.ts";
import { allanVariance } from "../noise/index.ts";
import type { KeyPath } from "./read-document.ts";
import type { Scenario } from "./scenario.ts";
import type { SenseReport } from "./sense-report.ts";

/** A deviation above this is no noise of an oscillator: its edges would overtake each other. */
const largest = 0.1;

const short = (value: number) => String(Number(value.toPrecision(3)));

/** An oscillator's noise, and the averaging times between which it shows. */
interface Noisy {
  readonly path: KeyPath;
  readonly levels: NoiseLevels;
  readonly shortest: number;
  readonly longest: number;
}

/** Allan deviation; flicker PM, slowly growing with the band, as if it were white. */
function deviation(levels: NoiseLevels, tau: number): number {
  const whitePmRms = Math.sqrt(levels.whitePmRms * levels.whitePmRms + levels.h1);
  return Math.sqrt(allanVariance({ ...levels, h1: 0, whitePmRms }, tau));
}

function noisyOf(scenario: Scenario): Noisy[] {
  const { reference, synthesizer, clock, counter, length } = scenario;
  const seen =
    counter.input === "reference"
      ? 1 / reference.nominalHz
      : 1 / (synthesizer?.outputHz ?? clock.tickHz);
  const noisy: Noisy[] = [
    { path: ["reference", "noise"], levels: reference.noise, shortest: seen, longest: length },
  ];
  if (synthesizer !== null) {
    const { noise, outputHz, loop } = synthesizer;
    // Slower than the loop the synthesizer follows the reference.
    const longest = Math.min(length, 1 / loop.naturalHz);
    const path = ["synthesizer", "noise"];
    noisy.push({ path, levels: noise, shortest: 1 / outputHz, longest });
  }
  if (clock.fallback !== null) {
    const path = ["receiver", "fallback", "noise"];
    const { noise } = clock.fallback;
    noisy.push({ path, levels: noise, shortest: 1 / clock.tickHz, longest: length });
  }
  if (counter.timebase !== "reference") {
    const path = ["counter", "timebase", "noise"];
    const shortest = counter.gate === "single" ? seen : counter.gate;
    noisy.push({ path, levels: counter.timebase.noise, shortest, longest: length });
  }
  return noisy;
}

/**
 * Checks the noises: is each small against the signal it is on?
 *
 * The models hold while time errors are small against the time they build up in; an Allan deviation
 * of a tenth, in a single period or over the whole run, is no longer a clock.
 *
 * @param scenario - a resolved scenario
 * @param report - where findings go
 */
export function senseOfNoise(scenario: Scenario, report: SenseReport): void {
  for (const { path, levels, shortest, longest } of noisyOf(scenario)) {
    for (const tau of [shortest, longest]) {
      const found = deviation(levels, tau);
      if (found <= largest) continue;
      report.fault(
        path,
        `is so large that it makes an Allan deviation of ${short(found)} at ${short(tau)} s; above ${largest} nothing is left of the clock`,
        "levels are fractions or seconds, not parts per million or nanoseconds",
      );
      break;
    }
  }
}
