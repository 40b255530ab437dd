import { z } from "zod";
import { nonNegative, positive } from "../keys/index.ts";

/** Something that befalls the drive, the clock or the counter at a set moment of true time. */
export type Disturbance =
  | { readonly kind: "drive_off"; readonly at: number; readonly for: number }
  | {
      readonly kind: "drive_rate";
      readonly at: number;
      readonly for: number;
      readonly outputHz: number;
    }
  | {
      readonly kind: "amplitude";
      readonly at: number;
      readonly for: number;
      readonly factor: number;
    }
  | { readonly kind: "missed_step"; readonly at: number }
  | { readonly kind: "extra_step"; readonly at: number }
  | { readonly kind: "missed_edge"; readonly at: number }
  | { readonly kind: "extra_edge"; readonly at: number };

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

/** A disturbance in the terms of the program. */
export function resolveDisturbance(disturbance: z.output<typeof disturbanceSchema>): Disturbance {
  switch (disturbance.kind) {
    case "drive_off":
      return { kind: disturbance.kind, at: disturbance.at_s, for: disturbance.for_s };
    case "drive_rate": {
      const { kind, at_s, for_s, output_hz } = disturbance;
      return { kind, at: at_s, for: for_s, outputHz: output_hz };
    }
    case "amplitude": {
      const { kind, at_s, for_s, factor } = disturbance;
      return { kind, at: at_s, for: for_s, factor };
    }
    default:
      return { kind: disturbance.kind, at: disturbance.at_s };
  }
}

/** The way back. */
export function disturbanceToJson(disturbance: Disturbance) {
  const { kind, at } = disturbance;
  const json = { kind, at_s: at };
  if (!("for" in disturbance)) return json;
  const lasting = { ...json, for_s: disturbance.for };
  switch (disturbance.kind) {
    case "drive_rate":
      return { ...lasting, output_hz: disturbance.outputHz };
    case "amplitude":
      return { ...lasting, factor: disturbance.factor };
    default:
      return lasting;
  }
}
