import { createHash } from "node:crypto";
import { existsSync, readdirSync, statSync } from "node:fs";
import { basename, join } from "node:path";
import { nearestKey, type ParsedScenario, parseScenario } from "../scenario/index.ts";
import { asWritten } from "./as-written.ts";
import { FileError, UsageError } from "./failures.ts";
import { demoFolder } from "./installed.ts";
import { readPieces } from "./read-pieces.ts";

/** A scenario read from a file. */
export interface LoadedScenario extends ParsedScenario {
  /** Name for folders: the file's name without its ending. */
  readonly name: string;
  readonly text: string;
  readonly sha256: string;
}

/** Largest scenario; bytes. */
const largest = 1 << 20;

/** Names of the demo scenarios. */
export function demoNames(): string[] {
  return readdirSync(demoFolder)
    .filter((file) => file.endsWith(".yaml"))
    .map((file) => file.slice(0, -".yaml".length));
}

/**
 * Reads a scenario: from a file, from standard input (`-`), or one of the demos by name.
 *
 * @param where - path, `-`, or the name of a demo
 * @param sets - overrides `PATH=VALUE`
 * @param shorthands - options that set one key: by the option, the key and the value it was given, if it was
 * @throws FileError if it cannot be read; ScenarioError if it is not valid
 */
export function loadScenario(
  where: string,
  sets: readonly string[],
  shorthands: Readonly<Record<string, readonly [key: string, value: string | undefined]>> = {},
): LoadedScenario {
  const path = resolvePath(where);
  const file = path === 0 ? "standard input" : path;
  const pieces: Buffer[] = [];
  let isWhole: boolean;
  try {
    isWhole = readPieces(path, largest, (piece) => pieces.push(Buffer.from(piece)));
  } catch (cause) {
    throw new FileError("read", file, cause);
  }
  if (!isWhole) {
    throw new UsageError(
      `${file}: is larger than a scenario can be (1 MB); give the scenario itself`,
    );
  }
  const data = Buffer.concat(pieces);
  const text = data.toString("utf8");
  const shorts = Object.entries(shorthands).flatMap(([option, [key, value]]) =>
    value === undefined ? [] : [{ set: `${key}=${value}`, written: `${option} ${value}` }],
  );
  const all = [...sets, ...shorts.map(({ set }) => set)];
  const names = new Map(shorts.map(({ set, written }) => [`--set ${set}`, written]));
  const parsed = asWritten(names, () => parseScenario(text, file, all));
  const name = path === 0 ? "stdin" : basename(path).replace(/\.(ya?ml|json)$/i, "");
  return { ...parsed, name, text, sha256: createHash("sha256").update(data).digest("hex") };
}

function resolvePath(where: string): string | 0 {
  if (where === "-") return 0;
  const isPlainName = /^[\w-]+$/.test(where);
  const demo = join(demoFolder, `${where}.yaml`);
  const isDemo = isPlainName && existsSync(demo);
  // A folder that happens to be called as a demo, such as one of its results, hides it no more than its absence.
  if (existsSync(where) && !(isDemo && statSync(where).isDirectory())) return where;
  if (isDemo) return demo;
  if (!isPlainName) return where;
  const names = demoNames();
  const near = nearestKey(where, names);
  const hint = near === null ? `the demos are ${names.join(", ")}` : `did you mean ${near}?`;
  throw new UsageError(`${where}: there is no such file, and no demo of that name; ${hint}`);
}
