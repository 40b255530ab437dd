import type { Comparison, Judgement } from "../../judgement/index.ts";
import type { Note } from "../../readings/index.ts";
import { finiteOrNull } from "./finite-or-null.ts";
import { headlineToJson, heldToJson } from "./headline-json.ts";

/** How records differ, as other programs read it; each difference is the first less the second. */
export function compareToJson(
  records: readonly {
    readonly file: string;
    readonly judgement: Judgement;
    readonly notes: readonly Omit<Note, "code">[];
  }[],
  { differences }: Comparison,
) {
  return {
    schema_version: 1,
    records: records.map(({ file, judgement, notes }) => ({
      file,
      readings: judgement.readings,
      duration_s: judgement.headline!.duration,
      headline: headlineToJson(judgement.headline),
      notes,
    })),
    differences: differences.map(
      ({ between, overRun, steady, systematicBound, differs, toHalve }) => ({
        between,
        over_run: heldToJson(overRun),
        steady: heldToJson(steady),
        systematic_bound: systematicBound,
        differs,
        to_halve_s: toHalve.map(finiteOrNull),
      }),
    ),
  };
}
