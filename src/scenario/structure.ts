import type { SenseReport } from "../keys/index.ts";
import type { StageDocuments } from "./sections.ts";

/**
 * Checks which stages need which others.
 *
 * @param document - the sections of the stages, type-checked
 * @param report - where findings go
 */
export function senseOfStructure(document: StageDocuments, report: SenseReport): void {
  const { synthesizer, drive, receiver, counter, clock, reference } = document;
  if (drive && !receiver) {
    report.misplaced(
      "drive",
      "needs a receiver: without one nobody hears the bursts",
      "add a receiver section",
    );
  }
  if (receiver && !drive) {
    report.misplaced(
      "receiver",
      "needs a drive: without one it hears no bursts",
      "add a drive section",
    );
  }
  if (drive && !synthesizer) {
    report.misplaced(
      "drive",
      "needs a synthesizer: its edges open the bursts",
      "add a synthesizer section",
    );
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
