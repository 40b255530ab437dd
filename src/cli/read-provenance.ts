import { readFileSync } from "node:fs";
import { z } from "zod";
import type { Provenance } from "../view/table/index.ts";
import { DataError, FileError } from "./failures.ts";
import { isSealed } from "./seal.ts";

const digest = z.string().regex(/^[0-9a-f]{64}$/);

/** What of a provenance is relied on when a run is repeated. */
const provenanceSchema = z.object({
  schema_version: z.literal(1),
  tool: z.literal("tickwright"),
  version: z.string(),
  scenario: z.record(z.string(), z.unknown()),
  recording: z.enum(["bursts", "ticks", "lazy"]),
  seed: z.string(),
  length_s: z.number().positive(),
  ends_at_length: z.boolean(),
  readings_wanted: z.number().int().positive().nullable(),
  was_interrupted: z.boolean(),
  truth: z.record(z.string(), z.unknown()),
  digests: z.partialRecord(z.enum(["readings.csv", "ticks.csv", "bursts.csv", "log.txt"]), digest),
});

const descriptorSchema = z.object({ "tickwright:provenance": provenanceSchema });

/**
 * Reads the provenance out of a descriptor.
 *
 * @param path - datapackage.json of a run
 * @returns the provenance, and whether the descriptor is the one that was written
 * @throws FileError if it cannot be read; DataError if it holds no provenance of a run
 */
export function readProvenance(path: string): Provenance & { readonly isSealed: boolean } {
  let text: string;
  try {
    text = readFileSync(path, "utf8");
  } catch (cause) {
    throw new FileError("read", path, cause);
  }
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (cause) {
    throw new DataError(
      `${path}: is not JSON: ${(cause as Error).message}; give a folder written by run`,
    );
  }
  const result = descriptorSchema.safeParse(value);
  if (!result.success) {
    const { path: keys } = result.error.issues[0]!;
    const place = keys.length === 0 ? "an object is wanted" : `see ${keys.join(".")}`;
    throw new DataError(
      `${path}: holds no provenance of a run (${place}); give a folder written by run`,
    );
  }
  const provenance = result.data["tickwright:provenance"] as unknown as Provenance;
  return { ...provenance, isSealed: isSealed(value as Record<string, unknown>) };
}
