import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { SweepProvenance } from "../../view/table/index.ts";
import { csvRows } from "../../view/table/index.ts";
import { DataError, UsageError } from "../failures.ts";
import {
  chunksOf,
  differencesOf,
  readSweepProvenance,
  summaryLines,
  summaryName,
} from "./sweep-folder.ts";
import { hasJournal } from "./sweep-journal.ts";
import { memberOf, rowsOf, type SweepPlan } from "./sweep-plan.ts";
import { parseVary } from "./vary.ts";
import type { SweepText } from "./write-sweep.ts";

/** A finished part of a sweep. */
export interface ShardFolder {
  readonly folder: string;
  readonly provenance: SweepProvenance;
}

/**
 * Reads what the parts of a sweep say they are, and makes sure that they make up the whole.
 *
 * @param folders - in any order
 * @returns the parts in their order, and the whole sweep
 * @throws UsageError or DataError if they do not belong together, or some are missing or damaged
 */
export function readShards(folders: readonly string[]): {
  readonly shards: readonly ShardFolder[];
  readonly plan: SweepPlan;
  readonly text: SweepText;
} {
  const found = folders.map((folder): ShardFolder => {
    if (hasJournal(folder)) {
      throw new DataError(`${folder}: is not finished; go on with it by sweep --resume`);
    }
    const provenance = readSweepProvenance(folder);
    if (provenance === null)
      throw new DataError(`${folder}: no sweep is there; give folders written by sweep`);
    return { folder, provenance };
  });
  const first = found[0]!;
  const { count } = first.provenance.shard;
  const shards: ShardFolder[] = [];
  for (const shard of found) {
    const { request, shard: part } = shard.provenance;
    const differences = differencesOf(first.provenance.request, request);
    if (differences.length > 0) {
      throw new UsageError(
        `${first.folder} and ${shard.folder} are parts of different sweeps: they differ in ${differences.join(", ")}; merge one sweep at a time`,
      );
    }
    if (part.count !== count) {
      throw new UsageError(
        `${first.folder} is a part of ${count}, ${shard.folder} one of ${part.count}; merge one sweep at a time`,
      );
    }
    const twin = shards[part.index - 1];
    if (twin) {
      throw new UsageError(
        `${twin.folder} and ${shard.folder} are both part ${part.index} of ${count}; give each part once`,
      );
    }
    shards[part.index - 1] = shard;
  }
  const { request, scenario_text } = first.provenance;
  const missing = Array.from({ length: Math.min(count, request.runs) }, (_, i) => i + 1).filter(
    (index) => shards[index - 1] === undefined,
  );
  if (missing.length > 0) {
    const named = missing.slice(0, 20).map((index) => `${index}/${count}`);
    const more = missing.length > 20 ? ` and ${missing.length - 20} more` : "";
    throw new UsageError(
      `missing: --shard ${named.join(", ")}${more}; sweep them, and give their folders too`,
    );
  }
  const plan: SweepPlan = {
    varied: request.vary.map(({ path, values }) => parseVary(`${path}=${values.join(",")}`)),
    seed: request.seed,
    seeds: request.seeds,
    length: request.length_s,
    readings: request.readings_wanted,
    recording: request.recording as SweepPlan["recording"],
    shard: { index: 1, count: 1 },
  };
  const descriptor = readDescriptor(first.folder);
  return {
    shards,
    plan,
    text: { ...descriptor, scenarioText: scenario_text, request },
  };
}

/**
 * The rows of the whole sweep in their order, from its parts.
 *
 * @throws DataError if a part was changed since, or lacks rows, naming them
 */
export function* mergedLines(
  shards: readonly ShardFolder[],
  plan: SweepPlan,
): Generator<string, void, undefined> {
  for (const { folder, provenance } of shards) {
    const path = join(folder, summaryName);
    if (digestOf(path) !== provenance.digests[summaryName]) {
      throw new DataError(
        `${path}: is not the file that was written: its digest differs; sweep that part again`,
      );
    }
  }
  const readers = shards.map(({ folder }) => summaryLines(join(folder, summaryName)));
  const runs = rowsOf(plan);
  for (let run = 0; run < runs; run++) {
    const part = run % readers.length;
    const { value, done } = readers[part]!.next();
    const { choice, seed } = memberOf(plan, run);
    const values = plan.varied.map(({ cells }, i) => cells[choice[i]!]!);
    const start = `${csvRows([[...values, seed]]).trimEnd()},`;
    if (done || !value.startsWith(start)) {
      const path = join(shards[part]!.folder, summaryName);
      throw new DataError(
        `${path}: the row of ${start.slice(0, -1)} is missing; sweep that part again`,
      );
    }
    yield value;
  }
}

function readDescriptor(folder: string): { readonly title: string; readonly name: string } {
  const { title, name } = JSON.parse(readFileSync(join(folder, "datapackage.json"), "utf8"));
  return { title, name: String(name).replace(/-sweep$/, "") };
}

function digestOf(path: string): string {
  const hash = createHash("sha256");
  for (const chunk of chunksOf(path)) hash.update(chunk);
  return hash.digest("hex");
}
