import { z } from "zod";
import { count, type InTerms, inTerms, nonNegative, positive, probability } from "../keys/index.ts";
import type { CounterParameters } from "../stages/counter/index.ts";

/** What a bench would have written of the readings, and how it is spoilt. */
export const logSchema = z
  .strictObject({
    format: z
      .enum(["period", "frequency", "stamped"])
      .meta({ description: "What a line holds: s, Hz, or a time stamp and s" })
      .default("period"),
    digits: count(
      "Significant digits of a number. Default: counter.display_digits, or 9",
    ).optional(),
    lost_line_probability: probability("Probability that a line is not there").default(0),
    doubled_line_probability: probability("Probability that a line is there twice").default(0),
    junk_line_probability: probability(
      "Probability that a line is garbled; never the first, which would pass for a heading",
    ).default(0),
    cut_last_line: z
      .boolean()
      .meta({ description: "Whether the last line breaks off, its end missing" })
      .default(false),
    stamp_resolution_s: positive("Time stamps are whole multiples of this; s").default(1),
    stamp_delay_s: nonNegative("From the end of a gate to its stamp; s").default(0),
  })
  .meta({
    description: "log.txt: the readings as a bench would have written them, spoilt on purpose",
  });

/** How log.txt is written. */
export type LogParameters = InTerms<z.output<typeof logSchema>> & { readonly digits: number };

/** The log section in the terms of the program; null where there is none. */
export function resolveLog(
  log: z.output<typeof logSchema> | undefined,
  counter: CounterParameters,
): LogParameters | null {
  return log
    ? { ...inTerms(log), digits: Math.min(17, log.digits ?? counter.displayDigits ?? 9) }
    : null;
}
