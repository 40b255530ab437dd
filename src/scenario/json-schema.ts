import { z } from "zod";
import { scenarioSchema } from "./schema.ts";

/**
 * The schema of scenario files for editors: JSON Schema, draft-07, of what may be written.
 *
 * It says what the parser's types and ranges say; what needs two keys at once (a burst that fits in
 * its period) only the parser checks.
 *
 * @returns a JSON Schema object
 *
 * Source: JSON Schema draft-07, which is what YAML language servers read.
 */
export function scenarioJsonSchema(): Record<string, unknown> {
  const { $schema, ...rest } = z.toJSONSchema(scenarioSchema, { target: "draft-7", io: "input" });
  return { $schema, ...rest };
}
