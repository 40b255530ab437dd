import { z } from "zod";
import { positive } from "../keys/index.ts";
import { disturbanceSchema } from "./disturbance-section.ts";
import { logSchema } from "./log-section.ts";
import { stageSchemas } from "./sections.ts";

// A scenario is checked once, so compiled validators gain nothing; and a page that forbids the
// evaluation of text stays quiet.
z.config({ jitless: true });

const seedSchema = z
  .union([z.string().min(1), z.number()], { error: "must be a text of at least one sign" })
  .refine((seed) => typeof seed === "string" || Number.isSafeInteger(seed) || seed % 1 !== 0, {
    message: "has more digits than a number can keep",
    params: { hint: "put the seed in quotes" },
  })
  .meta({ description: "Seed of all random streams. Default: a fresh one, told by the run" });

/** A scenario file: SI numbers, the unit as suffix of the key, no key but these. */
export const scenarioSchema = z
  .strictObject({
    $schema: z
      .string()
      .meta({ description: "Where an editor finds the schema of these files" })
      .optional(),
    title: z.string().meta({ description: "What the scenario shows" }).default("untitled"),
    seed: seedSchema.optional(),
    length_s: positive("Simulated length of a run; s"),
    recording: z
      .enum(["bursts", "ticks", "lazy"])
      .meta({
        description:
          "Which edges a run computes: every burst, the bursts that make ticks, what the counter looks at. Default: by the length of the run",
      })
      .optional(),
    ...stageSchemas,
    log: logSchema.optional(),
    disturbances: z
      .array(disturbanceSchema)
      .meta({ description: "What goes wrong, and when" })
      .default([]),
  })
  .meta({ title: "Scenario", description: "A clock-drive chain and the counter that watches it" });

/** A scenario file as written, type-checked, plain defaults filled in. */
export type ScenarioDocument = z.output<typeof scenarioSchema>;
