import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { basename, join } from "node:path";
import { fileURLToPath } from "node:url";
import { nearestKey } from "../scenario/nearest-key.ts";
import { type ParsedScenario, parseScenario } from "../scenario/parse.ts";
import { FileError, UsageError } from "./failures.ts";

/** A scenario read from a file. */
export interface LoadedScenario extends ParsedScenario {
  /** Name for folders: the file's name without its ending. */
  readonly name: string;
  readonly text: string;
  readonly sha256: string;
}

/** The folder of demo scenarios that comes with the program. */
export const demoFolder = fileURLToPath(new URL("../../scenarios/", import.meta.url));

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
 * @throws FileError if it cannot be read; ScenarioError if it is not valid
 */
export function loadScenario(where: string, sets: readonly string[]): LoadedScenario {
  const path = resolvePath(where);
  let data: Buffer;
  try {
    const limit = 1 << 20;
    if (path !== 0 && statSync(path).size > limit) {
      throw new UsageError(`${path}: is larger than a scenario can be (1 MB)`);
    }
    data = readFileSync(path);
  } catch (cause) {
    if (cause instanceof UsageError) throw cause;
    throw new FileError("read", where, cause);
  }
  const text = data.toString("utf8");
  const file = path === 0 ? "standard input" : path;
  const parsed = parseScenario(text, file, sets);
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
