import { readOverride } from "../../scenario/index.ts";
import { asWritten } from "../as-written.ts";
import { UsageError } from "../failures.ts";

/** A key of the scenario that a sweep varies. */
export interface Varied {
  /** Keys joined by dots, as for `--set`. */
  readonly path: string;
  /** Values as written, each a YAML value on one line. */
  readonly texts: readonly string[];
  /** The same as cells of a table: numbers where all of them are. */
  readonly cells: readonly (string | number)[];
  readonly isNumeric: boolean;
}

const opening = "[{(";
const closing = "]})";

/** Splits at the commas that stand outside brackets and quotes. */
function splitValues(text: string): string[] {
  const values: string[] = [];
  let depth = 0;
  let quote = "";
  let from = 0;
  for (let i = 0; i < text.length; i++) {
    const sign = text[i]!;
    if (quote !== "") {
      if (sign === quote) quote = "";
    } else if (sign === '"' || sign === "'") quote = sign;
    else if (opening.includes(sign)) depth++;
    else if (closing.includes(sign)) depth--;
    else if (sign === "," && depth === 0) {
      values.push(text.slice(from, i).trim());
      from = i + 1;
    }
  }
  return [...values, text.slice(from).trim()];
}

/**
 * Reads `PATH=V1,V2,..`.
 *
 * @param vary - keys joined by dots, and values parted by commas; commas in brackets or quotes do not part
 * @returns the key and its values
 * @throws UsageError if it has not that form, or a value is there twice
 * @throws ScenarioError if a value is no YAML
 */
export function parseVary(vary: string): Varied {
  const refuse = (why: string): never => {
    throw new UsageError(`--vary ${vary}: ${why}`);
  };
  const equals = vary.indexOf("=");
  if (equals < 1)
    return refuse("must have the form PATH=V1,V2,.., for example counter.gate_s=10,50");
  const path = vary.slice(0, equals).trim();
  const texts = splitValues(vary.slice(equals + 1));
  if (path === "seed") refuse("seeds are varied by --seeds");
  if (path === "title") refuse("a title changes nothing; vary a number");
  if (texts.some((text) => text === ""))
    refuse("has an empty value between its commas; write one, or take a comma away");
  // biome-ignore lint/suspicious/noControlCharactersInRegex: line breaks and the like are what it looks for
  if (/[\u0000-\u001f\u007f]/.test(vary))
    refuse("has a line break or control character in it; write it on one line");
  const sets = texts.map((text) => `${path}=${text}`);
  const values = asVary(sets, () => sets.map((set) => readOverride(set).value));
  const twice = texts.find((_, i) =>
    values.slice(0, i).some((value) => JSON.stringify(value) === JSON.stringify(values[i])),
  );
  if (twice !== undefined) refuse(`has the value ${twice} twice; keep one of the two`);
  const isNumeric = values.every((value) => typeof value === "number" && Number.isFinite(value));
  return { path, texts, cells: isNumeric ? (values as number[]) : texts, isNumeric };
}

/** Lets complaints about overrides name `--vary`, where that is where the override comes from. */
export const asVary = <T>(sets: readonly string[], act: () => T): T =>
  asWritten(new Map(sets.map((set) => [`--set ${set}`, `--vary ${set}`])), act);
