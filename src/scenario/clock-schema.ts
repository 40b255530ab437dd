import { z } from "zod";
import { count, positive } from "./quantity.ts";

const bounceSchema = z
  .strictObject({
    count: count("Extra closures of the contact after each tick"),
    within_s: positive("They fall within this time after the tick; s"),
  })
  .meta({ description: "Contact bounce" });

/** The step counter and contact of the clock. */
export const clockSchema = z
  .strictObject({
    tick_hz: positive("Nominal rate of the tick; Hz"),
    bounce: bounceSchema.optional(),
  })
  .meta({ description: "The step counter and contact of the clock" });
