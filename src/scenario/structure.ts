import { timeBaseEdgeRate } from "./counter-section.ts";
import type { Fault } from "./explain-issue.ts";
import { leastFlickerPmBandwidth, type NoiseDocument } from "./noise-section.ts";
import type { KeyPath } from "./read-document.ts";
import type { ScenarioDocument } from "./schema.ts";

/** Every noise section of a scenario, with the edge rate of its stage: the rate at half of which its noise ends. */
function noiseSections(document: ScenarioDocument) {
  const { reference, synthesizer, receiver, counter, clock } = document;
  const sections: { path: KeyPath; noise: NoiseDocument; edgeRateHz: number }[] = [
    { path: ["reference", "noise"], noise: reference.noise, edgeRateHz: reference.nominal_hz },
  ];
  if (synthesizer !== undefined) {
    const { noise, loop } = synthesizer;
    sections.push({ path: ["synthesizer", "noise"], noise, edgeRateHz: loop.comparison_hz });
  }
  if (receiver?.fallback !== undefined) {
    const { noise } = receiver.fallback;
    const path = ["receiver", "fallback", "noise"];
    sections.push({ path, noise, edgeRateHz: clock.tick_hz });
  }
  if (counter.timebase !== "reference") {
    const { noise } = counter.timebase;
    sections.push({ path: ["counter", "timebase", "noise"], noise, edgeRateHz: timeBaseEdgeRate });
  }
  return sections;
}

/**
 * What hinders a scenario, type-checked, from being resolved: sections that need others, a gate that
 * is not given, noise that its keys do not fix.
 *
 * @param document - the scenario as written
 * @returns the faults, none where it can be resolved
 */
export function structureFaults(document: ScenarioDocument): Fault[] {
  const { synthesizer, drive, receiver, counter, clock, reference } = document;
  const faults: Fault[] = [];
  const add = (path: KeyPath, at: "key" | "value", message: string, hint = "") =>
    faults.push({ path, at, message, hint });

  if (drive !== undefined && receiver === undefined) {
    add(
      ["drive"],
      "key",
      "needs a receiver: without one nobody hears the bursts",
      "add a receiver section",
    );
  }
  if (receiver !== undefined && drive === undefined) {
    add(
      ["receiver"],
      "key",
      "needs a drive: without one it hears no bursts",
      "add a drive section",
    );
  }
  if (drive !== undefined && synthesizer === undefined) {
    add(
      ["drive"],
      "key",
      "needs a synthesizer: its edges open the bursts",
      "add a synthesizer section",
    );
  }
  if (counter.input === "synthesizer" && synthesizer === undefined) {
    add(
      ["counter", "input"],
      "value",
      "is synthesizer, but the scenario has none",
      "use clock or reference",
    );
  }
  if (counter.gate_s === undefined && counter.technique !== "time_interval") {
    add(
      ["counter", "gate_s"],
      "value",
      "is missing",
      "a number of seconds > 0, or the word single",
    );
  }
  if (drive === undefined && receiver === undefined && counter.input === "clock") {
    if (synthesizer !== undefined) {
      add(
        ["synthesizer"],
        "key",
        "drives nothing: the counter looks at the clock, which has no receiver",
        "add drive and receiver, or set counter.input to synthesizer",
      );
    } else if (reference.nominal_hz < clock.tick_hz) {
      const message = `is slower than the ${clock.tick_hz} Hz of the clock that divides it`;
      add(["reference", "nominal_hz"], "value", message, "raise it, or lower clock.tick_hz");
    }
  }
  for (const { path, noise, edgeRateHz } of noiseSections(document)) {
    const bandwidth = noise.bandwidth_hz ?? edgeRateHz / 2;
    const shortest = 1 / (2 * Math.PI * bandwidth);
    if (noise.flicker_longest_s <= shortest) {
      add(
        [...path, "flicker_longest_s"],
        "value",
        `is not above the shortest relaxation time, ${Number(shortest.toPrecision(3))} s by the ${bandwidth} Hz at which the noise ends`,
        "raise it, or raise bandwidth_hz",
      );
    }
    if (noise.flicker_pm_adev_1s && bandwidth < leastFlickerPmBandwidth) {
      add(
        [...path, "flicker_pm_adev_1s"],
        "value",
        `does not fix the noise where its band ends at ${bandwidth} Hz`,
        `give h: { h1: … } instead, or a bandwidth_hz of at least ${leastFlickerPmBandwidth}`,
      );
    }
  }
  return faults;
}
