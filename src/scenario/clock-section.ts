import { z } from "zod";
import type { ClockParameters } from "../stages/clock/index.ts";
import { resolveNoise } from "./noise-section.ts";
import { count, positive } from "./quantity.ts";
import type { receiverSchema } from "./receiver-section.ts";

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

/** The clock section, and what the receiver section says of the clock, in the terms of the program. */
export function resolveClock(
  clock: z.output<typeof clockSchema>,
  receiver: z.output<typeof receiverSchema> | undefined,
): ClockParameters {
  const { bounce } = clock;
  const fallback = receiver?.fallback;
  return {
    tickHz: clock.tick_hz,
    stepsPerTick: receiver?.steps_per_tick ?? 1,
    bounce: bounce === undefined ? null : { count: bounce.count, within: bounce.within_s },
    fallback:
      fallback === undefined
        ? null
        : {
            after: fallback.after_s,
            fractionalOffset: fallback.fractional_offset,
            noise: resolveNoise(fallback.noise, clock.tick_hz),
          },
  };
}

/** The way back, but for what stands in the receiver section (`receiverToJson`). */
export function clockToJson(clock: ClockParameters) {
  return {
    tick_hz: clock.tickHz,
    ...(clock.bounce && {
      bounce: { count: clock.bounce.count, within_s: clock.bounce.within },
    }),
  };
}
