import { nominalPeriod, type Recording, type Scenario } from "../scenario/index.ts";
import { hidesEdges } from "../stages/counter/index.ts";

/** Bursts (or ticks, in a chain without bursts) up to which every one is computed by default. */
const mostByDefault = 1e6;

/** Which edges a run computes, and whether something forced another choice than the default. */
export interface RecordingChoice {
  readonly recording: Recording;
  /** Why the draws differ from those of the default mode, or null. */
  readonly forcedBy: string | null;
}

const finer: readonly Recording[] = ["lazy", "ticks", "bursts"];

/**
 * Chooses the recording mode before a run starts.
 *
 * @param scenario - the scenario
 * @param length - simulated length of the run; s
 * @param asked - mode asked for on top of the scenario's own, or null
 * @param wants - outputs that need ticks or bursts
 * @returns the mode; every burst up to a million of them, else what the counter looks at, unless the scenario,
 *   `asked` or an output says otherwise
 */
export function chooseRecording(
  scenario: Scenario,
  length: number,
  asked: Recording | null,
  wants: { readonly ticks: boolean; readonly bursts: boolean },
): RecordingChoice {
  const rate = scenario.synthesizer?.outputHz ?? scenario.clock.tickHz;
  const everything: Recording = scenario.drive === null ? "ticks" : "bursts";
  const byDefault =
    asked ?? scenario.recording ?? (length * rate <= mostByDefault ? everything : "lazy");
  const [needed, forcedBy] = demand(scenario, wants);
  if (finer.indexOf(needed) > finer.indexOf(byDefault)) return { recording: needed, forcedBy };
  if (byDefault === "bursts" && scenario.drive === null)
    return { recording: "ticks", forcedBy: null };
  return { recording: byDefault, forcedBy: null };
}

function demand(
  scenario: Scenario,
  wants: { readonly ticks: boolean; readonly bursts: boolean },
): [Recording, string | null] {
  if (wants.bursts && scenario.drive !== null) return ["bursts", "the bursts asked for"];
  if (wants.ticks) return ["ticks", "the ticks asked for"];
  const { bounce } = scenario.clock;
  const { input, holdoff } = scenario.counter;
  if (input === "clock" && hidesEdges(holdoff, nominalPeriod(scenario))) {
    return ["ticks", "a hold-off that hides edges of the clock"];
  }
  if (bounce !== null && input === "clock" && holdoff < bounce.within) {
    return ["ticks", "contact bounce that the counter's hold-off does not cover"];
  }
  return ["lazy", null];
}
