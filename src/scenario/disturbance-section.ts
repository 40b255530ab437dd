import { z } from "zod";
import { type InTerms, nonNegative, positive } from "../keys/index.ts";

const at = nonNegative("When it begins, true time from the start of the run; s");
const duration = positive("How long it lasts; s");

const momentary = <Kind extends string>(kind: Kind, description: string) =>
  z.strictObject({ kind: z.literal(kind), at_s: at }).meta({ description });

/** What befalls the drive, the clock or the counter, at a set moment. */
export const disturbanceSchema = z.discriminatedUnion("kind", [
  z
    .strictObject({ kind: z.literal("drive_off"), at_s: at, for_s: duration })
    .meta({ description: "No bursts arrive" }),
  z
    .strictObject({
      kind: z.literal("drive_rate"),
      at_s: at,
      for_s: duration,
      output_hz: positive("Rate of the bursts meanwhile; Hz"),
    })
    .meta({ description: "Bursts arrive at another rate" }),
  z
    .strictObject({
      kind: z.literal("amplitude"),
      at_s: at,
      for_s: duration,
      factor: nonNegative("What the amplitude is multiplied by; dimensionless"),
    })
    .meta({ description: "Bursts arrive weaker or stronger" }),
  momentary("missed_step", "The clock loses one step"),
  momentary("extra_step", "The clock makes one step too many"),
  momentary("missed_edge", "The counter misses the next edge"),
  momentary("extra_edge", "The counter counts an edge that is none"),
]);

/** Something that befalls the drive, the clock or the counter at a set moment of true time. */
export type Disturbance = InTerms<z.output<typeof disturbanceSchema>>;
