import type { RunOptions } from "../chain/index.ts";
import { resolvedToJson } from "../scenario/index.ts";
import type { Provenance } from "../view/table/index.ts";
import type { LoadedScenario } from "./load-scenario.ts";
import { tableFile } from "./run-files.ts";
import type { RunSummary } from "./run-summary.ts";
import type { RunOutcome } from "./simulate.ts";
import { version } from "./version.ts";

/** Moment to be written as "created": the present, or that of SOURCE_DATE_EPOCH. */
export function created(): string {
  const epoch = process.env.SOURCE_DATE_EPOCH;
  const isGiven = epoch !== undefined && /^\d{1,11}$/.test(epoch);
  const moment = isGiven ? new Date(Number(epoch) * 1000) : new Date();
  return moment.toISOString().replace(/\.\d+Z$/, "Z");
}

/** How a run came about: all that `replay` needs to make it again. */
export function provenanceOf(
  loaded: LoadedScenario,
  options: RunOptions,
  outcome: RunOutcome,
  summary: RunSummary,
): Provenance {
  const digests: Record<string, string> = {};
  for (const [name, { sha256 }] of Object.entries(outcome.written))
    digests[tableFile(name)] = sha256;
  return {
    schema_version: 1,
    tool: "tickwright",
    version,
    scenario: resolvedToJson(loaded.scenario),
    scenario_text: loaded.text,
    scenario_sha256: loaded.sha256,
    recording: options.recording,
    seed: options.seed,
    length_s: options.length,
    ends_at_length: options.endsAtLength,
    readings_wanted: options.readings,
    was_interrupted: outcome.wasInterrupted,
    generator: "tychei, seeded by the ARC4 of seedrandom from the seed and the path of the stage",
    node: process.versions.node,
    v8: process.versions.v8,
    platform: `${process.platform} ${process.arch}`,
    counts: { ...outcome.counts, ticks_simulated: outcome.ticks },
    warnings: summary.warnings,
    truth: summary.truth,
    digests,
    ...(outcome.logTruth && { log: outcome.logTruth }),
  };
}
