import { join } from "node:path";
import { judgeReadings } from "../analysis/rate/judge-readings.ts";
import { repairSlips } from "../analysis/rate/repair-slips.ts";
import { toMarkup } from "../chart/to-markup.ts";
import { estimateTruths, runReadings } from "../planning/run-readings.ts";
import {
  type NamedPicture,
  readingPictureNames,
  readingPictures,
} from "../report/reading-pictures.ts";
import type { Scenario } from "../scenario/scenario.ts";
import { OutputFolder } from "./output-folder.ts";
import type { RunOutcome } from "./simulate.ts";

/** A picture as a file. */
export interface Picture {
  readonly name: string;
  readonly file: string;
  readonly svg: string;
}

/** File name of a picture. */
const pictureFile = (name: string): string => `${name}.svg`;

/** Names of all the pictures that a run may draw. */
export const runPictureFiles: readonly string[] = readingPictureNames.map(pictureFile);

/** Pictures as files. */
export function pictureFiles(pictures: readonly NamedPicture[]): Picture[] {
  return pictures.map(({ name, node }) => ({
    name,
    file: pictureFile(name),
    svg: `<?xml version="1.0" encoding="UTF-8"?>\n${toMarkup(node)}\n`,
  }));
}

/** Pictures of a run: its readings with the truth beside them. */
export function runPictures(scenario: Scenario, outcome: RunOutcome): Picture[] {
  const record = outcome.record.read();
  if (record.start.length < 2) return [];
  const readings = runReadings(scenario, record);
  const repaired = repairSlips(readings, 1 / scenario.clock.stepsPerTick).readings;
  const fallback = outcome.fallback.map(([from, to]) => ({ from, to }));
  return pictureFiles(
    readingPictures(readings, judgeReadings(repaired).stability, {
      title: scenario.title,
      truth: estimateTruths(scenario, record).end_to_end.rateOverRun,
      slips: outcome.slips,
      fallback,
    }),
  );
}

/**
 * Writes pictures into a folder, all or none.
 *
 * @param path - the folder
 * @param pictures - what to write
 * @param mayReplace - whether pictures that are there may be replaced
 * @returns their paths, in order
 */
export function writePictures(
  path: string,
  pictures: readonly Picture[],
  mayReplace: boolean,
): string[] {
  const folder = new OutputFolder(
    path,
    pictures.map(({ file }) => file),
    mayReplace,
  );
  try {
    for (const { file, svg } of pictures) folder.write(file, svg);
    folder.commit();
  } catch (error) {
    folder.abandon();
    throw error;
  }
  return pictures.map(({ file }) => join(path, file));
}
