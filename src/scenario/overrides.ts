import type { KeyPath } from "../keys/index.ts";
import { readDocument } from "./read-document.ts";
import { ScenarioError } from "./scenario-error.ts";

/** One override, read. */
export interface Override {
  /** How complaints call it: `--set PATH=VALUE`, as written. */
  readonly name: string;
  readonly path: KeyPath;
  readonly value: unknown;
}

const refuse = (name: string, path: string, message: string, hint = ""): never => {
  throw new ScenarioError([{ file: name, line: null, column: null, path, message, hint }]);
};

/**
 * Reads one override.
 *
 * @param set - `PATH=VALUE`: keys and list indices joined by dots, and a YAML value on one line
 * @returns path and value
 * @throws ScenarioError where it has not that form
 */
export function readOverride(set: string): Override {
  const name = `--set ${set}`;
  const equals = set.indexOf("=");
  if (equals < 1)
    refuse(name, "", "must have the form PATH=VALUE", "for example counter.gate_s=10");
  const path = set.slice(0, equals).trim();
  const steps = path.split(".");
  if (steps.some((step) => step === "")) {
    refuse(name, path, "has an empty key in its path", "write keys joined by dots");
  }
  const text = set.slice(equals + 1);
  if (text.trim() === "")
    refuse(name, path, "has no value", "write it behind the =, or null to take the key away");
  try {
    return { name, path: steps, value: readDocument(text, name).value };
  } catch (error) {
    if (!(error instanceof ScenarioError)) throw error;
    const [first] = error.complaints;
    return refuse(name, path, first!.message, first!.hint);
  }
}

const isIndex = (step: string | number) => /^\d+$/.test(String(step));

/** The same container, or a new one where there is none, ready to be changed. */
function container(
  here: unknown,
  step: string | number,
): Record<string, unknown> | unknown[] | null {
  if (Array.isArray(here)) return [...here];
  if (typeof here === "object" && here !== null) return { ...here };
  if (here !== undefined && here !== null) return null;
  return isIndex(step) ? [] : {};
}

function withValue(here: unknown, { name, path, value }: Override, depth: number): unknown {
  const step = path[depth];
  if (step === undefined) return value;
  // Nothing to take away: no section comes into being for it.
  if (value === null && here === undefined) return undefined;
  const changed = container(here, step);
  const above = path.slice(0, depth).join(".");
  if (changed === null)
    return refuse(
      name,
      path.join("."),
      `${above} is a value and has no keys`,
      `set ${above} itself`,
    );
  const next = { name, path, value };
  if (Array.isArray(changed)) {
    const index = Number(step);
    if (!isIndex(step) || index > changed.length) {
      return refuse(
        name,
        path.join("."),
        `${above || "the top"} is a list of ${changed.length}`,
        `use an index from 0 to ${changed.length}`,
      );
    }
    const item = withValue(changed[index], next, depth + 1);
    changed.splice(index, 1, ...(item === null || item === undefined ? [] : [item]));
    return changed;
  }
  const inner = Object.hasOwn(changed, step) ? changed[step] : undefined;
  const outcome = withValue(inner, next, depth + 1);
  if (outcome === null || outcome === undefined) {
    delete changed[step];
    return changed;
  }
  // Defined rather than assigned, so that a key named like a prototype is a key like any other.
  Object.defineProperty(changed, step, {
    value: outcome,
    enumerable: true,
    configurable: true,
    writable: true,
  });
  return changed;
}

/**
 * Applies overrides to what a file says, in their order; sections that are missing come into being, and
 * the value null takes a key away.
 *
 * @param value - the plain value of the file; not changed
 * @param overrides - what to set
 * @returns a new value
 * @throws ScenarioError where a path leads through something that is no section
 */
export function applyOverrides(value: unknown, overrides: readonly Override[]): unknown {
  return overrides.reduce((here, override) => withValue(here, override, 0), value);
}
