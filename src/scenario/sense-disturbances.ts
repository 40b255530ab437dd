import { type KeyPath, type SenseReport, short } from "../keys/index.ts";
import type { Disturbance } from "./disturbance-section.ts";
import type { Scenario } from "./scenario.ts";

const isOfDrive = ({ kind }: Disturbance) =>
  kind === "drive_off" || kind === "drive_rate" || kind === "amplitude";
const isOfClock = ({ kind }: Disturbance) => kind === "missed_step" || kind === "extra_step";

/** A drive at another rate: its bursts must still fit, and the fallback must not cut in. */
function senseOfRate(
  scenario: Scenario,
  outputHz: number,
  path: KeyPath,
  report: SenseReport,
): void {
  const { drive, clock } = scenario;
  const period = 1 / outputHz;
  if (drive !== null && drive.burst >= period) {
    report.fault(
      path,
      `leaves ${short(period)} s from burst to burst, and a burst lasts ${short(drive.burst)} s`,
      "lower it, or shorten drive.burst_s",
    );
  }
  if (clock.fallback !== null && period > clock.fallback.after) {
    report.warn(
      "fallback_takes_over",
      path,
      `leaves ${short(period)} s from burst to burst, more than the ${clock.fallback.after} s after which the clock falls back on its own oscillator`,
    );
  }
}

/**
 * Checks the disturbances: do they fall into the run, and on something that is there?
 *
 * @param scenario - a resolved scenario: disturbances in order of time
 * @param written - index in the file of each of them
 * @param report - where findings go
 */
export function senseOfDisturbances(
  scenario: Scenario,
  written: readonly number[],
  report: SenseReport,
): void {
  const { disturbances, length, drive, counter } = scenario;
  /** End of the last one so far of each kind that lasts, and its index in the file. */
  const last = new Map<string, { end: number; index: number }>();
  disturbances.forEach((disturbance, order) => {
    const index = written[order]!;
    const path = ["disturbances", index];
    const at = [...path, "at_s"];
    if (disturbance.at >= length) {
      report.warn(
        "disturbance_beyond_end",
        at,
        `is not within the run of ${length} s, so it never happens`,
      );
    }
    if (isOfDrive(disturbance) && drive === null) {
      report.fault(
        [...path, "kind"],
        `is ${disturbance.kind}, but the scenario has no drive`,
        "leave it out, or add drive and receiver",
      );
      return;
    }
    if ((isOfDrive(disturbance) || isOfClock(disturbance)) && counter.input !== "clock") {
      report.warn("no_effect", path, `does not show: the counter looks at the ${counter.input}`);
    }
    if (!("for" in disturbance)) return;
    const before = last.get(disturbance.kind);
    if (before !== undefined && disturbance.at < before.end) {
      report.fault(
        at,
        `falls into disturbances.${before.index}, which is of the same kind`,
        "join the two, or let one end before the other begins",
      );
    }
    last.set(disturbance.kind, { end: disturbance.at + disturbance.for, index });
    if (disturbance.kind === "drive_rate") {
      senseOfRate(scenario, disturbance.outputHz, [...path, "output_hz"], report);
    }
  });
}
