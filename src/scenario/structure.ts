import type { SenseReport } from "../keys/index.ts";
import { type StageDocuments, stageNeeds } from "./sections.ts";

/**
 * Checks whether the stages make a chain.
 *
 * @param document - the sections of the stages, type-checked
 * @param report - where findings go
 */
export function senseOfStructure(
  document: StageDocuments & { readonly log?: unknown },
  report: SenseReport,
): void {
  const { synthesizer, drive, receiver, counter, clock, reference } = document;
  for (const [section, needed, why] of stageNeeds) {
    if (document[section] === undefined || document[needed] !== undefined) continue;
    report.misplaced(section, `needs a ${needed}: ${why}`, `add a ${needed} section`);
  }
  if (document.log && counter.technique === "time_interval") {
    report.misplaced("log", "holds periods, and time_interval reads time errors", "leave it out");
  }
  if (counter.input === "synthesizer" && !synthesizer) {
    report.fault(
      ["counter", "input"],
      "is synthesizer, but the scenario has none",
      "use clock or reference",
    );
  }
  if (drive || receiver || counter.input !== "clock") return;
  if (synthesizer) {
    report.misplaced(
      "synthesizer",
      "drives nothing: the counter looks at the clock, which has no receiver",
      "add drive and receiver, or set counter.input to synthesizer",
    );
  } else if (reference.nominal_hz < clock.tick_hz) {
    report.fault(
      ["reference", "nominal_hz"],
      `is slower than the ${clock.tick_hz} Hz of the clock that divides it`,
      "raise it, or lower clock.tick_hz",
    );
  }
}
