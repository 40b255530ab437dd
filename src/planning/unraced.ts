import type { RateEstimate } from "../judgement/index.ts";
import { type GateRace, raceInWords } from "./gate-race.ts";

/** A bias from this part of its uncertainty on spoils an interval. */
const spoils = 0.3;

/**
 * An estimate of a run whose gate may race with the edges: the mean of readings does not apply where that shifts it.
 *
 * @param race - of the scenario; null where there is none
 */
export function unraced(estimate: RateEstimate, race: GateRace | null): RateEstimate {
  const isShifted =
    race !== null &&
    estimate.method === "mean_of_readings" &&
    Math.abs(race.bias) > spoils * estimate.standardUncertainty;
  return isShifted ? { ...estimate, applies: false, why: raceInWords(race) } : estimate;
}
