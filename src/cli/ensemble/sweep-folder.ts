import {
  closeSync,
  existsSync,
  openSync,
  readdirSync,
  readFileSync,
  readSync,
  rmSync,
} from "node:fs";
import { join } from "node:path";
import type { SweepProvenance, SweepRequest } from "../../view/table/index.ts";
import { DataError, FileError } from "../failures.ts";
import { packageName } from "../output-folder.ts";
import { isSealed } from "../seal.ts";

/** Name of the table of a finished sweep. */
export const summaryName = "summary.csv";

/** What the descriptor of a finished sweep says, or null where a folder holds none. */
export function readSweepProvenance(folder: string): SweepProvenance | null {
  const path = join(folder, packageName);
  if (!existsSync(path) || !existsSync(join(folder, summaryName))) return null;
  let text: string;
  try {
    text = readFileSync(path, "utf8");
  } catch (cause) {
    throw new FileError("read", path, cause);
  }
  let found: SweepProvenance | null = null;
  let isWhole = false;
  try {
    const descriptor = JSON.parse(text);
    found = descriptor["tickwright:provenance"];
    isWhole = isSealed(descriptor);
  } catch {
    // Told below.
  }
  if (found?.request?.vary && found.shard && found.digests) {
    if (isWhole) return found;
    throw new DataError(`${path}: was changed since it was written; sweep that part again`);
  }
  throw new DataError(`${path}: is not the descriptor of a sweep; give a folder written by sweep`);
}

const words: Readonly<Record<keyof SweepRequest, string>> = {
  version: "the version of the program",
  scenario_sha256: "the scenario file",
  set: "--set",
  vary: "--vary",
  seed: "--seed",
  seeds: "--seeds",
  length_s: "--length",
  readings_wanted: "--readings",
  recording: "--recording",
  runs: "the number of runs",
};

/** In what two sweeps differ, in words; empty where they are the same. */
export function differencesOf(one: SweepRequest, other: SweepRequest): string[] {
  return (Object.keys(words) as (keyof SweepRequest)[])
    .filter((key) => JSON.stringify(one[key]) !== JSON.stringify(other[key]))
    .map((key) => words[key]);
}

/** Removes what a run that was killed left half written. */
export function removeLeftovers(folder: string): void {
  for (const name of readdirSync(folder)) {
    if (/^\.(summary\.csv|datapackage\.json)\.part-\d+$/.test(name)) {
      rmSync(join(folder, name), { force: true });
    }
  }
}

/**
 * A file in pieces, which hold only until the next is asked for.
 *
 * @throws FileError if it cannot be read
 */
export function* chunksOf(path: string): Generator<Buffer, void, undefined> {
  const trying = <T>(act: () => T): T => {
    try {
      return act();
    } catch (cause) {
      throw new FileError("read", path, cause);
    }
  };
  const fd = trying(() => openSync(path, "r"));
  try {
    const chunk = Buffer.alloc(1 << 16);
    for (;;) {
      const got = trying(() => readSync(fd, chunk, 0, chunk.length, null));
      if (got === 0) return;
      yield chunk.subarray(0, got);
    }
  } finally {
    closeSync(fd);
  }
}

/**
 * The rows of a summary.csv one by one, without their line ends; the header is left out.
 *
 * @throws FileError if it cannot be read
 */
export function* summaryLines(path: string): Generator<string, void, undefined> {
  let rest: Buffer = Buffer.alloc(0);
  let isHeader = true;
  for (const chunk of chunksOf(path)) {
    rest = Buffer.concat([rest, chunk]);
    for (let stop = rest.indexOf("\r\n"); stop >= 0; stop = rest.indexOf("\r\n")) {
      if (!isHeader) yield rest.subarray(0, stop).toString("utf8");
      isHeader = false;
      rest = rest.subarray(stop + 2);
    }
  }
}
