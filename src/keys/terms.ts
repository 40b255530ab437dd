import type { z } from "zod";
import { type SchemaNode, unwrapped } from "./schema-node.ts";

type CamelCase<Key extends string> = Key extends `${infer Head}_${infer Rest}`
  ? `${Head}${Capitalize<CamelCase<Rest>>}`
  : Key;

type Term<Key> = Key extends `${infer Head}_s_per_sqrt_hz` | `${infer Head}_s`
  ? CamelCase<Head>
  : Key extends string
    ? CamelCase<Key>
    : Key;

/** What is written in a scenario file, in the terms of the program. */
export type InTerms<Written> = Written extends readonly (infer Item)[]
  ? readonly InTerms<Item>[]
  : Written extends object
    ? { readonly [Key in keyof Written as Term<Key>]: InTerms<Written[Key]> }
    : Written;

/** Camel case; the second is the unit that is not named. */
const termOf = (key: string): string =>
  key
    .replace(/_s(?:_per_sqrt_hz)?$/, "")
    .replace(/_(\w)/g, (_match, sign: string) => sign.toUpperCase());

/**
 * Brings what is written in a scenario file into the terms of the program: `amplitude_v` becomes `amplitudeV`,
 * `burst_s` becomes `burst`. Values stay as they are.
 *
 * @param written - a section, a list or a value
 * @returns the same in the terms of the program, sections in it too
 */
export function inTerms<Written>(written: Written): InTerms<Written> {
  const read = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(read);
    if (typeof value !== "object" || value === null) return value;
    return Object.fromEntries(
      Object.entries(value).map(([key, inner]) => [termOf(key), read(inner)]),
    );
  };
  return read(written) as InTerms<Written>;
}

/**
 * The way back: how parameters would be written in a scenario file.
 *
 * @param schema - of the file
 * @param parameters - in the terms of the program; a section that is not among them has its keys beside them
 * @returns every key of the schema that the parameters have, in the order of the schema; null is left out
 */
export function asWritten(schema: z.ZodType, parameters: object): Record<string, unknown> {
  const write = (node: SchemaNode, value: unknown): unknown => {
    const section = unwrapped(node, value);
    if (Array.isArray(value)) return value.map((item) => write(section.def.element!, item));
    if (typeof value !== "object" || value === null || section.shape === undefined) return value;
    const terms = value as Readonly<Record<string, unknown>>;
    const written: [string, unknown][] = [];
    for (const [key, inner] of Object.entries(section.shape)) {
      const isBeside = unwrapped(inner, terms).shape !== undefined;
      const term = terms[termOf(key)] ?? (isBeside && !(termOf(key) in terms) ? terms : null);
      if (term === null) continue;
      const found = write(inner, term);
      // A section that has none of its keys beside it was not there.
      if (term !== terms || Object.keys(found as object).length > 0) written.push([key, found]);
    }
    return Object.fromEntries(written);
  };
  return write(schema as unknown as SchemaNode, parameters) as Record<string, unknown>;
}
