import type { z } from "zod";
import { type KeyPath, type SchemaNode, unwrapped, valueAt } from "../keys/index.ts";

function schemaAt(schema: z.ZodType, value: unknown, path: KeyPath): SchemaNode | undefined {
  let node: SchemaNode | undefined = schema as unknown as SchemaNode;
  let here = value;
  for (const step of path) {
    const section: SchemaNode = unwrapped(node, here);
    node = section.def.type === "array" ? section.def.element : section.shape?.[step];
    if (node === undefined) return undefined;
    here = valueAt(here, step);
  }
  return node;
}

/**
 * The keys that the section at a path may have.
 *
 * @param schema - schema of the whole
 * @param value - the whole, as written (it decides between alternatives)
 * @param path - the section
 * @returns the keys, in the order of the schema; none where the path leads to no section
 */
export function knownKeys(schema: z.ZodType, value: unknown, path: KeyPath): string[] {
  const node = schemaAt(schema, value, path);
  if (node === undefined) return [];
  const here = path.reduce(valueAt, value);
  return Object.keys(unwrapped(node, here).shape ?? {});
}

/**
 * What the schema says the key at a path means.
 *
 * @param schema - schema of the whole
 * @param value - the whole, as written
 * @param path - the key
 * @returns its description, with unit; empty where there is none
 */
export function keyDescription(schema: z.ZodType, value: unknown, path: KeyPath): string {
  let node = schemaAt(schema, value, path);
  while (node !== undefined) {
    const description = node.meta()?.description;
    if (description !== undefined) return description;
    node = node.def.innerType;
  }
  return "";
}
