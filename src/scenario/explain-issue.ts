import type { z } from "zod";
import type { Fault, KeyPath } from "../keys/index.ts";
import { keyDescription, knownKeys } from "./known-keys.ts";
import { nearestKey } from "./nearest-key.ts";

/** What is said of a key that must be there and is not. */
export const absent = "is missing";

type Issue = z.core.$ZodIssue;

const at = (value: unknown, path: KeyPath): unknown =>
  path.reduce<unknown>(
    (here, key) =>
      typeof here === "object" && here !== null && Object.hasOwn(here, key)
        ? (here as Record<string, unknown>)[key]
        : undefined,
    value,
  );

/** A value as a person would name it. */
function named(value: unknown): string {
  if (value === null || value === undefined) return "nothing";
  if (Array.isArray(value)) return "a list";
  if (typeof value === "object") return "a section";
  if (typeof value !== "string") return String(value);
  return `the text ${JSON.stringify(value.length > 40 ? `${value.slice(0, 40)}…` : value)}`;
}

const typeNames: Record<string, string> = {
  number: "a number",
  int: "a whole number",
  string: "a text",
  boolean: "true or false",
  object: "a section",
  array: "a list",
};

/** What to do about a text that stands where a number should. */
function numberHint(text: string): string {
  const number = "[+-]?(?:\\d[\\d_]*\\.?[\\d_]*|\\.\\d[\\d_]*)(?:[eE][+-]?\\d+)?";
  const bare = text.trim();
  if (new RegExp(`^${number}$`).test(bare)) {
    return bare.includes("_")
      ? `write ${bare.replaceAll("_", "")}: digits are not grouped`
      : "leave out the quotes";
  }
  if (/^[+-]?\d+,\d+$/.test(bare)) {
    return `write ${bare.replace(",", ".")}: the decimal sign is a point`;
  }
  if (new RegExp(`^${number}\\s*[a-zA-Zµμ°%]`).test(bare)) {
    return "write the number alone: its unit is in the name of the key";
  }
  return "";
}

/** What people know and no key can take, and why. */
const refusals = [
  {
    sign: /jitter.*(?:pp|p2p|peak)|(?:pp|p2p|peak).*jitter|peak_to_peak/,
    why: "a peak-to-peak value is no rms: it grows with the number of edges, which it does not tell",
    instead:
      "of N edges of Gaussian noise divide by the mean range of N deviates, 6.48 for N = 1000 (Tippett 1925), and give white_pm_rms_s",
  },
  {
    sign: /jitter/,
    why: "an rms value, over 12 kHz to 20 MHz as data sheets have it, says nothing of a clock's second",
    instead: "give points of phase_noise from 1 Hz or below, or Allan deviations",
  },
] as const;

function unknownKey(schema: z.ZodType, value: unknown, section: KeyPath, key: string): Fault {
  const known = knownKeys(schema, value, section);
  const nearest = nearestKey(key, known);
  const refusal = refusals.find(({ sign }) => sign.test(key));
  if (refusal)
    return { path: [...section, key], at: "key", message: refusal.why, hint: refusal.instead };
  let hint = known.length === 0 ? "" : `known here: ${known.join(", ")}`;
  if (nearest !== null) hint = `did you mean ${nearest}?`;
  else {
    const home = knownKeys(schema, value, []).find((name) =>
      knownKeys(schema, value, [name]).includes(key),
    );
    if (home !== undefined) hint = `it belongs in ${home}`;
  }
  return {
    path: [...section, key],
    at: "key",
    message: "unknown key",
    hint,
    ...(nearest !== null && { meant: [...section, nearest].join(".") }),
  };
}

function wrongType(schema: z.ZodType, value: unknown, path: KeyPath, expected: string): Fault {
  const got = at(value, path);
  const type = typeNames[expected] ?? `of type ${expected}`;
  const section = at(value, path.slice(0, -1));
  const key = path.at(-1);
  const isAbsent =
    typeof section === "object" &&
    section !== null &&
    key !== undefined &&
    !Object.hasOwn(section, key);
  if (isAbsent) {
    const meaning = keyDescription(schema, value, path);
    return {
      path,
      at: "value",
      message: absent,
      hint: meaning && `it is ${type}: ${meaning}`,
    };
  }
  if (typeof got === "number" && !Number.isFinite(got)) {
    return {
      path,
      at: "value",
      message: `must be a finite number, got ${got}`,
      hint: "write one such as 10e6 or 2e-11",
    };
  }
  let hint = "";
  if (typeof got === "string" && (expected === "number" || expected === "int")) {
    hint = numberHint(got);
  } else if (got === null && expected === "object") {
    hint = "remove the key, or write the section under it";
  } else if (expected === "string" && typeof got !== "object") {
    hint = "put it in quotes";
  }
  return { path, at: "value", message: `must be ${type}, got ${named(got)}`, hint };
}

function wrongWord(value: unknown, path: KeyPath, words: readonly unknown[]): Fault {
  const got = at(value, path);
  const texts = words.map(String);
  const nearest = typeof got === "string" ? nearestKey(got, texts) : null;
  // `{kind:drive_off}` is a key without a value.
  const isRunTogether = Object.keys(Object(at(value, path.slice(0, -1)))).some((key) =>
    key.startsWith(`${path.at(-1)}:`),
  );
  const hint = isRunTogether ? "put a blank after the colon" : "";
  return {
    path,
    at: "value",
    message:
      got === undefined
        ? `is missing: one of ${texts.join(", ")}`
        : `must be ${texts.length > 1 ? "one of " : ""}${texts.join(", ")}; got ${named(got)}`,
    hint: nearest === null ? hint : `did you mean ${nearest}?`,
  };
}

/**
 * Says in plain words what the schema found wrong.
 *
 * @param schema - schema of the whole
 * @param value - the whole, as written
 * @param issue - one finding of the schema package
 * @returns one fault or several
 */
export function explainIssue(schema: z.ZodType, value: unknown, issue: Issue): Fault[] {
  const path = issue.path.map((step) => (typeof step === "symbol" ? String(step) : step));
  const wrong = (message: string, hint = ""): Fault[] => [{ path, at: "value", message, hint }];
  switch (issue.code) {
    case "unrecognized_keys":
      return issue.keys.map((key) => unknownKey(schema, value, path, key));
    case "invalid_type":
      return [wrongType(schema, value, path, issue.expected)];
    case "invalid_value":
      return [wrongWord(value, path, issue.values)];
    case "too_small":
    case "too_big": {
      const got = at(value, path);
      const small = issue.code === "too_small";
      const limit = small ? issue.minimum : issue.maximum;
      if (typeof got === "string") return wrong("must not be empty");
      return wrong(
        `must be ${small ? ">" : "<"}${issue.inclusive ? "=" : ""} ${limit}, got ${named(got)}`,
      );
    }
    case "invalid_union": {
      if (issue.errors.length === 0 && "options" in issue && Array.isArray(issue.options)) {
        return [wrongWord(value, path, issue.options)];
      }
      // The alternative that the author was aiming at is the one that was not refused at once.
      const aimed = issue.errors.find((branch) =>
        branch.some((inner) => inner.path.length > 0 || inner.code === "unrecognized_keys"),
      );
      if (aimed === undefined) return wrong(`${issue.message}, got ${named(at(value, path))}`);
      return aimed.flatMap((inner) =>
        explainIssue(schema, value, { ...inner, path: [...path, ...inner.path] }),
      );
    }
    case "custom":
      return wrong(issue.message, String(issue.params?.hint ?? ""));
    default:
      return wrong(issue.message);
  }
}
