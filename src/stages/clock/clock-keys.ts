import { z } from "zod";
import {
  count,
  fraction,
  inTerms,
  likeSchema,
  noiseSchema,
  positive,
  resolveNoise,
  type SenseReport,
  senseOfNoise,
  short,
} from "../../keys/index.ts";
import type { ClockParameters } from "./clock-parameters.ts";

const noisePath = ["receiver", "fallback", "noise"];

const bounceSchema = z
  .strictObject({
    count: count("Extra closures of the contact after each tick"),
    within_s: positive("They fall within this time after the tick; s"),
  })
  .meta({ description: "Contact bounce" });

/** The step counter and contact of the clock. */
const clockSchema = z
  .strictObject({
    tick_hz: positive("Nominal rate of the tick; Hz"),
    bounce: bounceSchema.optional(),
  })
  .meta({ description: "The step counter and contact of the clock" });

const fallbackSchema = z
  .strictObject({
    after_s: positive("Silence after which the clock's own oscillator takes over; s"),
    like: likeSchema,
    fractional_offset: fraction(
      "Fractional frequency offset of that oscillator; dimensionless",
    ).default(0),
    noise: noiseSchema.prefault({}),
  })
  .meta({ description: "The clock's own oscillator, for when the drive fails" });

/** Keys of the clock that stand in the receiver section: a clock without a receiver has none of them. */
const stepKeys = {
  steps_per_tick: count("Steps that make a tick"),
  fallback: fallbackSchema.optional(),
};

/**
 * The clock section in the terms of the program.
 *
 * @param clock - the section
 * @param steps - `stepKeys` of the receiver section; undefined where there is no receiver
 * @param report - where it is noted that keys do not fix the noise
 */
function resolveClock(
  clock: z.output<typeof clockSchema>,
  steps: z.output<z.ZodObject<typeof stepKeys>> | undefined,
  report: SenseReport,
): ClockParameters {
  const { steps_per_tick = 1, fallback } = steps ?? {};
  return {
    ...inTerms({ ...clock, steps_per_tick, bounce: clock.bounce ?? null }),
    fallback: fallback
      ? {
          ...inTerms(fallback),
          noise: resolveNoise(fallback.noise, clock.tick_hz, noisePath, report),
        }
      : null,
  };
}

/**
 * Checks the clock: do bounces end before the next tick, does its own oscillator leave the drive a chance?
 *
 * @param clock - the clock
 * @param burstPeriod - time from burst to burst; s, null where there are no bursts
 * @param length - of the run; s
 * @param report - where findings go
 */
function senseOfClock(
  { tickHz, bounce, fallback }: ClockParameters,
  burstPeriod: number | null,
  length: number,
  report: SenseReport,
): void {
  if (bounce !== null && bounce.within >= 1 / tickHz) {
    report.fault(
      ["clock", "bounce", "within_s"],
      `is as long as the ${short(1 / tickHz)} s from tick to tick, or longer`,
      "shorten it: bounces of one tick are over before the next",
    );
  }
  if (fallback === null) return;
  senseOfNoise(fallback.noise, [1 / tickHz, length], noisePath, report);
  if (burstPeriod !== null && fallback.after <= burstPeriod) {
    report.fault(
      ["receiver", "fallback", "after_s"],
      `is not longer than the ${short(burstPeriod)} s from burst to burst, so the drive would never be heard`,
      "raise it to more than the time from burst to burst",
    );
  }
}

/** What the clock says of its section, and of its keys in the receiver's. */
export const clockKeys = {
  schema: clockSchema,
  inReceiver: stepKeys,
  resolve: resolveClock,
  sense: senseOfClock,
};
