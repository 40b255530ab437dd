import type { StabilityRow } from "../../analysis/index.ts";
import type { Readings } from "../../readings/index.ts";
import type { ChartOptions, SvgNode } from "../chart/index.ts";
import { errorAgainstGatePicture, gateGroups, histogramPicture } from "./gate-pictures.ts";
import { type PictureContext, validCount } from "./picture-context.ts";
import { runningMeanPicture } from "./running-mean-picture.ts";
import { stabilityPicture } from "./stability-picture.ts";
import { timeErrorPicture } from "./time-error-picture.ts";

/** Names of all the pictures there may be of a record of readings. */
export const readingPictureNames = [
  "readings",
  "time-error",
  "histogram",
  "error-against-gate",
  "stability",
] as const;

/** A picture and the name of its file. */
export interface NamedPicture {
  readonly name: string;
  readonly node: SvgNode;
}

/** Fewest readings that histograms and errors against gate length are drawn of. */
const fewest = 16;

/**
 * Pictures of a record of readings, real or simulated; those that the record is long enough for.
 *
 * @param taken - the record as it was taken, which the time error shows with its slips; s
 * @param readings - the same cleaned, as its rate is estimated from; s
 * @param stability - its stability table, perhaps empty
 * @param context - what is known beside it
 */
export function readingPictures(
  taken: Readings,
  readings: Readings,
  stability: readonly StabilityRow[],
  context: PictureContext,
): NamedPicture[] {
  const pictures: NamedPicture[] = [];
  const options = (idPrefix: string): ChartOptions => ({
    ...context.look,
    title: context.title,
    idPrefix,
  });
  const add = (name: (typeof readingPictureNames)[number], node: SvgNode | null) => {
    if (node !== null) pictures.push({ name, node });
  };
  const isPeriod = taken.kind === "period" && readings.kind === "period";
  if (isPeriod && validCount(readings.period) >= 2) {
    add("readings", runningMeanPicture(readings, context, options("readings")));
  }
  add("time-error", timeErrorPicture(taken, context, options("time-error")));
  if (isPeriod && readings.backToBack && readings.period.length >= fewest) {
    const groups = gateGroups(readings);
    add("histogram", histogramPicture(groups, context, options("histogram")));
    add("error-against-gate", errorAgainstGatePicture(groups, context, options("gate")));
  }
  if (stability.length >= 2) add("stability", stabilityPicture(stability, options("stability")));
  return pictures;
}
